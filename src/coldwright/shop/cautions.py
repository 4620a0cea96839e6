"""Cautions that stand wherever the work can hurt someone.

They name the hazard, the first thing to do about it and who decides: local codes and licensed
practice come before anything printed here. They are no permission and no instruction.
"""

from __future__ import annotations

from dataclasses import dataclass

from coldwright.errors import Notice, Severity
from coldwright.shop.rows import unknown

SAFETY_CLASSES = ("A1", "A2L", "A2", "A3")


@dataclass(frozen=True)
class _Caution:
    code: str
    severity: Severity
    text: str
    source: str

    def notice(self) -> Notice:
        return Notice(self.code, self.severity, self.text, self.source)


_LAW = _Caution(
    "local_law",
    "danger",
    "Opening or charging a sealed system is licensed work in most countries, and some forbid "
    "putting a flammable gas into equipment that was not made for it. Check local law and have a "
    "certified person do or supervise this work; nothing here says that a build is allowed.",
    "shop_refrigerant_law",
)
_VENTING = _Caution(
    "no_venting",
    "danger",
    "Do not let refrigerant go into the air: recover it with equipment made for that gas.",
    "shop_refrigerant_law",
)
_FLAMMABLE = _Caution(
    "flammable_refrigerant",
    "danger",
    "This refrigerant burns. Work in moving air with no flame, spark or hot surface near the "
    "floor; put switches and thermostat contacts outside the cold space or use sealed ones; mark "
    "the machine with the flame sign, the gas and the grams. A full leak can make a closed "
    "cabinet explosive. Charge limits are set by local codes.",
    "shop_iec_60335_2_24",
)
_OPENING = _Caution(
    "open_by_cutting",
    "danger",
    "Before opening: recover the gas, flush with dry nitrogen, evacuate, flush again, and only "
    "then cut the tube with a cutter. Never unbraze a joint that may still hold flammable gas.",
    "shop_iec_60335_2_24",
)
_CLASS_2 = _Caution(
    "class_2_is_not_2L",
    "danger",
    "Class A2 lights from an ordinary switch spark: rules that are eased for class A2L do not "
    "apply to it.",
    "shop_iso_817",
)
_FLUORINE = _Caution(
    "toxic_combustion",
    "danger",
    "A refrigerant that holds fluorine gives off hydrogen fluoride in a flame or on a glowing "
    "surface: leave at the first sharp smell, and air the room.",
    "shop_icsc_1729",
)
_HEAVY_GAS = _Caution(
    "heavy_gas",
    "warning",
    "Refrigerant gas is heavier than air and pushes the air out of low places: ventilate, and do "
    "not work in a pit or a closed cabin with a charged bottle. Liquid freezes skin and eyes.",
    "shop_common_practice",
)
_PRESSURE = _Caution(
    "test_pressure",
    "danger",
    "Press a system only with dry nitrogen through a regulator and a relief valve, never with "
    "oxygen or compressed air. A capillary joins both sides, so the whole system gets the "
    "low-side test pressure; old parts may stand less than their plate says.",
    "shop_iec_60335_service",
)
_VACUUM = _Caution(
    "no_start_in_vacuum",
    "warning",
    "Never energise a hermetic compressor while it stands under vacuum.",
    "shop_maker_manuals",
)
_BRAZING = _Caution(
    "brazing",
    "danger",
    "Braze only a system that is empty and flushed, with dry nitrogen flowing through it and open "
    "to the air. No cadmium filler; no phosphorus filler on steel. Ventilate, keep a fire "
    "extinguisher at hand and watch old insulation for an hour: cork and sawdust smoulder.",
    "shop_brazing_guides",
)
_MAINS = _Caution(
    "mains",
    "danger",
    "Mains voltage kills, and capacitors keep a charge. Earth every metal part, fit a fuse, "
    "residual-current protection and the overload and starting gear made for that motor; have a "
    "qualified person wire and test it to local code.",
    "shop_common_practice",
)
_COOLANT = _Caution(
    "coolant_near_food",
    "danger",
    "Where food is kept use only food-grade inhibited propylene glycol. Ethylene glycol is "
    "poisonous even in small amounts, and ethanol solutions burn.",
    "shop_common_practice",
)
_FOOD = _Caution(
    "food_temperature",
    "warning",
    "Perishable food must be kept at or below the temperature that your food law sets (often 4 to "
    "5 °C). Judge by a thermometer in the food, not by this calculation.",
    "shop_food_codes",
)
_OLD_MATERIALS = _Caution(
    "old_materials",
    "warning",
    "Old cabinets may hold asbestos, lead paint or lead solder, and a latch that cannot be opened "
    "from inside has killed children: have doubtful material tested, and fit a latch that pushes "
    "open.",
    "shop_common_practice",
)


def cautions_for(
    safety_class: str,
    *,
    has_brazing: bool = True,
    mains: bool = True,
    food: bool = True,
    old_cabinet: bool = True,
) -> tuple[Notice, ...]:
    """Cautions for a build whose refrigerant has `safety_class` (A1, A2L, A2 or A3).

    The gravest come first. Raises InputError for an unknown class.
    """
    wanted = safety_class.strip().upper()
    if wanted not in SAFETY_CLASSES:
        raise unknown(
            SAFETY_CLASSES, safety_class, what="Safety class", field="refrigerant.safety_class"
        )
    found = [_LAW, _VENTING]
    if wanted != "A1":
        found += [_FLAMMABLE, _OPENING]
    if wanted == "A2":
        found.append(_CLASS_2)
    if wanted != "A3":
        found.append(_FLUORINE)
    found += [_HEAVY_GAS, _PRESSURE, _VACUUM]
    found += [_BRAZING] * has_brazing + [_MAINS] * mains
    found += [_COOLANT, _FOOD] * food + [_OLD_MATERIALS] * old_cabinet
    grave = {"danger": 0, "warning": 1, "info": 2}
    return tuple(
        caution.notice() for caution in sorted(found, key=lambda each: grave[each.severity])
    )
