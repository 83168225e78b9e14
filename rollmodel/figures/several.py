"""Several drawings in one figure, each in its place."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass
class Drawing:
    """The drawings by the name of their place."""

    parts: dict

    @property
    def moving(self) -> list:
        """Every artist that ``update`` may touch."""
        return [artist for drawing in self.parts.values() for artist in drawing.moving]


def draw(figure, scene, places: dict, parts: dict, look, family="metric") -> Drawing:
    """Lay each part of a scene out in its place; ``scene`` has a field for each name."""
    return Drawing(
        {
            name: parts[name].draw(figure.add_axes(place), getattr(scene, name), look, family)
            for name, place in places.items()
        }
    )
