"""The Curlew, the invented compound of the worked examples, as records of the flight chapter."""

from calc.examples import CURLEW_WING as _WING
from calc.flight.craft import Wing

CURLEW_WING = Wing(
    wing_area=_WING.area,
    wing_aspect_ratio=_WING.aspect_ratio,
    wing_angle=_WING.angle,
    wing_lift_slope=_WING.lift_slope,
    wing_span_efficiency=_WING.span_efficiency,
    wing_profile_drag_coefficient=_WING.profile_drag_coefficient,
    wing_maximum_lift_coefficient=_WING.maximum_lift_coefficient,
)
