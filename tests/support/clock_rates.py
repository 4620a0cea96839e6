"""The clock's physics written again as plain rates of change, for an adaptive integrator.

No step, no map and no elimination of the clock is used.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from coldwright.clock.cold_table import dry_cold_side
from coldwright.clock.plant import ClockPlant
from coldwright.fluids.moist_air import density, humidity_ratio
from coldwright.heat.leakage import stack_outflow
from coldwright.parts.moisture import deposit_latent_heat
from coldwright.plant.balance import settle
from coldwright.plant.charge_rule import FixedCharge
from coldwright.plant.evaluation import Conditions
from coldwright.plant.machine_map import migration_heat
from support.on_clock import OnClock

NODE, AIR, GOODS, SHEET, SHELL, BULB, HUMIDITY, FROST, BACK, ENERGY = range(10)
SCALES = {HUMIDITY: 1e-3, FROST: 1e-2}  # so that all states are of the size of kelvins


class DirectMachine:
    """Capacity, condenser heat and conductance, power, shell, content, flow, migration heat,
    evaporating.

    Balances over nodes and rooms in steps finer than the clock's map, straight between; the room
    that the condenser feels is the one in which the balance holds the sheet as warm as it is.
    """

    def __init__(self, case: OnClock, nodes: np.ndarray, rooms: np.ndarray) -> None:
        plant = case.found.plant
        system = replace(plant.system, cold_side=dry_cold_side(plant.box.cold_side))
        node, room = np.meshgrid(nodes, rooms, indexing="ij")
        at = Conditions(node, room, room, np.full(node.shape, case.pressure))
        balance = settle(system, at, FixedCharge(np.full(node.shape, case.charge)))
        if np.any(balance.reason):
            raise ValueError(
                f"no balance at {node[balance.reason != 0]}, {room[balance.reason != 0]}"
            )
        e = balance.evaluation
        self.nodes = nodes
        self.condensing = e.unknowns.condensing_temperature
        self.figures = np.stack(
            [
                e.evaporator.heat,
                e.condenser.heat,
                e.condenser.heat / (self.condensing - room),
                e.compressor.power,
                e.shell_temperature - room,
                case.charge - e.inventory.low_side,
                e.compressor.mass_flow,
                migration_heat(system, e),
                e.unknowns.evaporating_temperature,
            ]
        )

    def at(self, node: float, sheet: float) -> np.ndarray:
        """Figures at a node and a sheet [K]."""
        i = min(max(int(np.searchsorted(self.nodes, node)) - 1, 0), len(self.nodes) - 2)
        x = (node - self.nodes[i]) / (self.nodes[i + 1] - self.nodes[i])
        condensing = (1.0 - x) * self.condensing[i] + x * self.condensing[i + 1]
        figures = (1.0 - x) * self.figures[:, i] + x * self.figures[:, i + 1]
        j = min(max(int(np.searchsorted(condensing, sheet)) - 1, 0), len(condensing) - 2)
        y = (sheet - condensing[j]) / (condensing[j + 1] - condensing[j])
        return (1.0 - y) * figures[:, j] + y * figures[:, j + 1]


class Rates:
    """d state / dt of one lane with the door shut; `running` is set from outside."""

    def __init__(self, case: OnClock, plant: ClockPlant) -> None:
        self.plant, self.pressure = plant, case.pressure
        self.room = float(case.plan.room[0])
        self.machine = DirectMachine(
            case, self.room + np.arange(-36.0, 1.6, 1.5), self.room + np.arange(-20.0, 4.0, 2.5)
        )
        self.outer = float(humidity_ratio(self.room, float(case.plan.humidity[0]), case.pressure))
        self.running = True
        walls = plant.walls
        self.capacity, self.conductance = walls.capacity[:, :, 0], walls.conductance[:, :, 0]
        self.share = walls.skin_share[:, 0]
        self.lag = float(plant.control.lag[0])

    def start(self) -> np.ndarray:
        """Everything at the room's temperature, the charge on the cold side."""
        nodes = np.full(6, self.room)
        rest = [self.outer / SCALES[HUMIDITY], 0.0, 0.0, 0.0]
        return np.concatenate([nodes, rest, np.full(self.capacity.size, self.room)])

    def one(self, name: str) -> float:
        """A figure of the plant."""
        return float(getattr(self.plant, name)[0])

    def __call__(self, _: float, y: np.ndarray) -> np.ndarray:
        node, air, goods, sheet, shell, bulb = y[:6]
        humidity, frost, back = y[HUMIDITY] * SCALES[HUMIDITY], y[FROST] * SCALES[FROST], y[BACK]
        layers = y[10:].reshape(self.capacity.shape)
        films = self.plant.table.at(np.array([air]), np.array([node]))[:, 0]
        to_air, to_liner, inward, _, _, deposition, area = films
        inward = 1.0 / (inward + max(frost, 0.0) / (100.0 * 0.108 * area**2))
        reached = inward * node + to_air * air + to_liner * float(layers[0] @ self.share)
        both = inward + to_air + to_liner
        surface = reached / both
        wet = float(humidity_ratio(surface, 1.0, self.pressure))
        settled = deposition * (humidity - wet) if humidity > wet or frost > 0.0 else 0.0
        latent = settled * float(deposit_latent_heat(surface))
        surface = (reached + latent) / both
        melting = 0.0
        if frost > 0.0 and surface > 273.15:
            melting = both * (surface - 273.15)
            surface = 273.15
        doing, moved, figures = self._machine(node, sheet, back)
        leak = self._leak(air, humidity)
        carried = leak * (1006.0 + 1860.0 * self.outer)
        walls = self.plant.walls
        beyond = (
            self.room
            + walls.sees_condenser[:, 0] * (sheet - self.room)
            + walls.sees_shell[:, 0] * (shell - self.room)
        )
        chain = np.concatenate([np.full((1, len(self.share)), air), layers, beyond[None]])
        through = self.conductance * (chain[:-1] - chain[1:])
        layer_heat = through[:-1] - through[1:]
        layer_heat[0] -= to_liner * self.share * (layers[0] - surface)
        goods_heat = self.one("contents_conductance") * (air - goods)
        air_heat = (
            (self.one("tight_conductance") + carried) * (self.room - air)
            - goods_heat
            - float(np.sum(through[0]))
            - to_air * (air - surface)
        )
        excess = figures[4] if self.running else 0.0
        sheet_heat = doing * figures[1] - figures[2] * (sheet - self.room)
        return np.concatenate(
            [
                [
                    (inward * (surface - node) - doing * figures[0] + moved)
                    / float(self.plant.store.heat(np.ones(1))[0]),
                    air_heat / self.one("air_capacity"),
                    goods_heat / self.one("contents_capacity"),
                    sheet_heat / self.one("condenser_capacity"),
                    self.one("shell_conductance")
                    * (self.room + excess - shell)
                    / self.one("shell_capacity"),
                    (node - bulb) / self.lag,
                    (leak * (self.outer - humidity) - settled)
                    / self.one("air_mass")
                    / SCALES[HUMIDITY],
                    ((settled if surface <= 273.15 else 0.0) - melting / 333.5e3) / SCALES[FROST],
                    self._returning(back, node, figures),
                    figures[3] if self.running else 0.0,
                ],
                (layer_heat / self.capacity).ravel(),
            ]
        )

    def _machine(self, node: float, sheet: float, back: float) -> tuple[float, float, np.ndarray]:
        """Share of its capacity, heat that migrates to the node [W], figures."""
        figures = self.machine.at(node, sheet)
        moved = 0.0 if self.running else back / 150.0 * figures[5] * figures[7]
        return (back if self.running else 0.0), moved, figures

    def _returning(self, back: float, node: float, figures: np.ndarray) -> float:
        if not self.running:
            return -back / 150.0
        fluid = self.plant.refrigerant
        rest = min(float(fluid.saturation_pressure(node)), self.one("standing_pressure"))
        flowing = float(fluid.saturation_pressure(figures[8]))
        surplus = max(rest / flowing - 1.0, 0.0) * (1.0 - back)
        return (1.0 - back) * float(figures[6] / figures[5]) * (1.0 + surplus)

    def _leak(self, air: float, humidity: float) -> float:
        outside = density(self.room, self.outer, self.pressure)
        inside = density(air, humidity, self.pressure)
        flow = stack_outflow(self.plant.openings.low[0], 0.61, inside, outside)
        return float(flow * outside / (1.0 + self.outer))
