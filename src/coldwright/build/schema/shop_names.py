"""The names that the shop keeps, as field kinds."""

from __future__ import annotations

from coldwright.build.schema.fields import Named
from coldwright.shop.compressor_classes import compressor_class, compressor_class_names
from coldwright.shop.gaskets import gasket, gasket_names
from coldwright.shop.materials import material, material_names
from coldwright.shop.products import product, product_names
from coldwright.shop.refrigerant_safety import refrigerant_names, safety
from coldwright.shop.surfaces import surface, surface_names
from coldwright.shop.tubes import tube, tube_names


def material_field(example: str, meaning: str) -> Named:
    """Return a field that holds the name of a material."""
    return Named("material", lambda name: material(name).name, material_names, example, meaning)


def gasket_field(example: str, meaning: str) -> Named:
    """Return a field that holds the name of a kind of door seal."""
    return Named("gasket", lambda name: gasket(name).name, gasket_names, example, meaning)


def product_field(example: str, meaning: str) -> Named:
    """Return a field that holds the name of stored goods."""
    return Named("product", lambda name: product(name).name, product_names, example, meaning)


def surface_field(example: str, meaning: str) -> Named:
    """Return a field that holds the name of a surface finish."""
    return Named("surface", lambda name: surface(name).name, surface_names, example, meaning)


def tube_field(example: str, meaning: str) -> Named:
    """Return a field that holds the name of a stock tube."""
    return Named("stock tube", lambda name: tube(name).name, tube_names, example, meaning)


def refrigerant_field(meaning: str) -> Named:
    """Return a field that holds the name of a refrigerant."""
    return Named("refrigerant", lambda name: safety(name).name, refrigerant_names, "R600a", meaning)


def motor_size_field(meaning: str) -> Named:
    """Return a field that holds the nominal size of a compressor."""
    return Named("compressor size", _motor_size, motor_sizes, "1/8 hp", meaning)


def motor_sizes() -> tuple[str, ...]:
    """The nominal sizes for which the shop has typical figures."""
    return tuple(dict.fromkeys(name.split(maxsplit=1)[1] for name in compressor_class_names()))


def _motor_size(name: str) -> str:
    return compressor_class(f"LBP {name}").size  # every application comes in every size
