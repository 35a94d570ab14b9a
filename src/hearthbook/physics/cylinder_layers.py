"""A stratified hot-water cylinder through one time step.

Layers are counted from the bottom; each is fully mixed. Heat and mass balance exactly. The layers'
array is changed in place, so that the compiled year needs no other memory.
"""

from __future__ import annotations

import numpy as np

from hearthbook.units import (
    Celsius,
    CelsiusOfLayers,
    Joules,
    JoulesPerKelvin,
    Kilograms,
    Seconds,
    WattsPerKelvin,
)

__all__ = ["cool_layers", "draw_layers", "drawn_from_store", "heat_layers", "mix_layers"]


def drawn_from_store(
    mixed: Kilograms, tap_temperature: Celsius, top_temperature: Celsius, cold_temperature: Celsius
) -> Kilograms:
    """Water that leaves the cylinder for an amount of mixed water at the tap.

    Args:
        mixed: water at the tap.
        tap_temperature: wanted there, above the cold water.
        top_temperature: of the cylinder's top layer.
        cold_temperature: of the mains.

    Returns:
        All of it where the cylinder is colder than the tap should be.

    Source:
        Heat balance of mixing.

    Example:
        >>> float(drawn_from_store(10.0, 40.0, 50.0, 10.0))
        7.5
    """
    hotter = np.maximum(top_temperature, tap_temperature) - cold_temperature
    drawn: Kilograms = mixed * (tap_temperature - cold_temperature) / hotter
    return drawn


def draw_layers(
    layers: CelsiusOfLayers, drawn: Kilograms, layer_mass: Kilograms, cold_temperature: Celsius
) -> Celsius:
    """Push cold water in at the bottom and hot water out at the top.

    Args:
        layers: temperatures from the bottom up; changed.
        drawn: mass that leaves.
        layer_mass: mass of one layer, above 0.
        cold_temperature: of the mains.

    Returns:
        Mean temperature of the water that left; the cold water's where nothing did.

    Assumes:
        Water moves up as a plug and mixes within each layer.

    Source:
        Mass and heat balance of each layer, upwind. Derived.

    Example:
        >>> import numpy as np
        >>> layers = np.array([50.0, 50.0])
        >>> float(draw_layers(layers, 10.0, 20.0, 10.0)), [float(layer) for layer in layers]
        (50.0, [30.0, 50.0])
    """
    left = drawn
    heat = 0.0
    top = layers.size - 1
    while left > 0.0:
        moved = min(left, layer_mass)
        share = moved / layer_mass
        heat += moved * layers[top]
        for layer in range(top, 0, -1):
            layers[layer] += share * (layers[layer - 1] - layers[layer])
        layers[0] += share * (cold_temperature - layers[0])
        left -= moved
    if drawn > 0.0:
        return heat / drawn
    return cold_temperature


def heat_layers(
    layers: CelsiusOfLayers, heat: Joules, layer_capacity: JoulesPerKelvin, heated_layers: int
) -> None:
    """Put heat into the lowest layers in equal parts, and let warm water rise.

    Args:
        layers: temperatures from the bottom up; changed.
        heat: put in.
        layer_capacity: of one layer, above 0.
        heated_layers: how many, from the bottom.

    Source:
        Heat balance of the layers. Derived.

    Example:
        >>> import numpy as np
        >>> layers = np.array([20.0, 20.0, 40.0])
        >>> heat_layers(layers, 2000.0, 100.0, 1)
        >>> [float(layer) for layer in layers]
        [30.0, 30.0, 40.0]
    """
    rise = heat / (layer_capacity * heated_layers)
    for layer in range(heated_layers):
        layers[layer] += rise
    mix_layers(layers)


def mix_layers(layers: CelsiusOfLayers) -> None:
    """Mix every layer that lies under a colder one, until none does.

    Args:
        layers: temperatures from the bottom up; changed.

    Source:
        Warm water rises; neighbouring layers that stand the wrong way round take their mean.

    Example:
        >>> import numpy as np
        >>> layers = np.array([30.0, 20.0, 40.0])
        >>> mix_layers(layers)
        >>> [float(layer) for layer in layers]
        [25.0, 25.0, 40.0]
    """
    for upper in range(1, layers.size):
        total = layers[upper]
        count = 1
        lower = upper - 1
        while lower >= 0 and layers[lower] * count > total:
            total += layers[lower]
            count += 1
            lower -= 1
        if count > 1:
            mean = total / count
            for layer in range(lower + 1, upper + 1):
                layers[layer] = mean


def cool_layers(
    layers: CelsiusOfLayers,
    surroundings: Celsius,
    layer_loss: WattsPerKelvin,
    layer_conduction: WattsPerKelvin,
    layer_capacity: JoulesPerKelvin,
    step: Seconds,
) -> Joules:
    """Let the cylinder lose heat to its surroundings and pass heat from layer to layer.

    Args:
        layers: temperatures from the bottom up; changed.
        surroundings: of the room it stands in.
        layer_loss: from each layer to the surroundings.
        layer_conduction: between neighbouring layers.
        layer_capacity: of one layer.
        step: length; short against the time constants, which are hours.

    Returns:
        Heat lost to the surroundings.

    Source:
        Heat balance of the layers, forward difference. Derived.

    Example:
        >>> import numpy as np
        >>> layers = np.array([50.0, 50.0])
        >>> round(cool_layers(layers, 20.0, 0.5, 1.0, 100e3, 900.0))
        27000
    """
    lost = 0.0
    below = 0.0  # heat that came up from the layer below
    for layer in range(layers.size):
        away = layer_loss * (layers[layer] - surroundings) * step
        above = 0.0
        if layer + 1 < layers.size:
            above = layer_conduction * (layers[layer] - layers[layer + 1]) * step
        layers[layer] += (below - above - away) / layer_capacity
        below = above
        lost += away
    return lost
