"""The invented rotorcraft of the worked examples, as records of the rotor chapter."""

from dataclasses import fields

from calc import examples
from calc.rotor.rotorcraft import Rotorcraft


def _record(craft: examples.Rotorcraft) -> Rotorcraft:
    return Rotorcraft(**{field.name: getattr(craft, field.name) for field in fields(Rotorcraft)})


PLOVER = _record(examples.PLOVER)
CURLEW = _record(examples.CURLEW)
