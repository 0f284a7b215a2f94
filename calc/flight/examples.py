"""The Curlew, the invented compound of the worked examples, as records of the flight chapter."""

from calc.examples import CURLEW
from calc.examples import CURLEW_WING as _WING
from calc.flight.craft import Airframe, Drive, Propellers, Rotor, Wing

CURLEW_WING = Wing(
    wing_area=_WING.area,
    wing_aspect_ratio=_WING.aspect_ratio,
    wing_angle=_WING.angle,
    wing_lift_slope=_WING.lift_slope,
    wing_span_efficiency=_WING.span_efficiency,
    wing_profile_drag_coefficient=_WING.profile_drag_coefficient,
    wing_maximum_lift_coefficient=_WING.maximum_lift_coefficient,
)
CURLEW_ROTOR = Rotor(
    radius=CURLEW.radius,
    chord=CURLEW.chord,
    blades=CURLEW.blades,
    rotor_speed=CURLEW.rotor_speed,
    twist=CURLEW.twist,
    lift_slope=CURLEW.lift_slope,
    profile_drag_coefficient=0.010,
    induced_factor=1.15,
)
CURLEW_AIRFRAME = Airframe(mass=CURLEW.mass, drag_area=CURLEW.drag_area)
CURLEW_PROPELLERS = Propellers(
    propellers=len(CURLEW.propellers),
    propeller_diameter=CURLEW.propellers[0].diameter,
    propeller_quality=0.87,
)
CURLEW_DRIVE = Drive(transmission_efficiency=0.96, antitorque_share=0.03)
