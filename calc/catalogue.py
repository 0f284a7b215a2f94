"""Every formula that has a form, under the name its shared links use."""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from importlib import import_module
from typing import Any

from calc.units import RPM


@dataclass(frozen=True, slots=True)
class Entry:
    """How a formula is found and shown: its title, other names, and the figure it draws.

    `chart` names a function beside the formula that takes the same inputs and draws them.
    `answer` names one that takes the same inputs and answers the form instead, with more outputs.
    `sliders` are inputs that can also be dragged, each with its ends in SI units.
    `modes` names one that takes by name what a chart can take, and returns the modes that were
    found, for the data sheet: rows with `frequency` and perhaps the other values of one.
    """

    title: str
    aliases: str = ""
    chart: str = ""
    sliders: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    answer: str = ""
    modes: str = ""


FORMULAS: dict[str, Entry] = {
    "rotor.tip_speed.tip_speed": Entry("Tip speed"),
    "rotor.advance_ratio.advance_ratio": Entry("Advance ratio"),
    "rotor.advance_ratio.reverse_flow_fraction": Entry("Reverse-flow fraction of the disc area"),
    "rotor.atmosphere.density_altitude": Entry("Density altitude of an air density"),
    "rotor.blade_loading.solidity": Entry("Solidity"),
    "rotor.blade_loading.thrust_coefficient": Entry("Thrust coefficient"),
    "rotor.blade_loading.blade_loading": Entry("Blade loading"),
    "rotor.inflow.induced_inflow": Entry("Induced inflow ratio"),
    "rotor.tip_speed.tip_state": Entry(
        "Tip speed and tip Mach number",
        "V_tip, hover tip Mach, how fast a blade tip goes",
        "tip_state_chart",
    ),
    "rotor.tip_speed.advancing_tip_mach": Entry("Advancing-tip Mach number", "M(1,90), MAT"),
    "rotor.tip_speed.mach_limited_airspeed": Entry("Airspeed at a tip Mach limit", "V at M limit"),
    "rotor.tip_speed.helical_tip_mach": Entry("Helical tip Mach number of a propeller"),
    "rotor.advance_ratio.reverse_flow": Entry(
        "Advance ratio and reverse flow", "mu, μ, reversed flow region"
    ),
    "rotor.advance_ratio.blade_airspeed": Entry("Airspeed at a blade section", "U_T, u_T"),
    "flight.wing.wing_state": Entry(
        "Wing lift share at an airspeed",
        "lift sharing, compound wing, unloading the rotor",
        "wing_chart",
        {"airspeed": (1.0, 120.0), "wing_angle": (math.radians(-4.0), math.radians(15.0))},
        answer="wing_at_airspeed",
    ),
    "flight.wing.airspeed_of_lift_share": Entry(
        "Airspeed of a wing lift share", answer="airspeed_of_share"
    ),
    "flight.wing.wing_lift_slope": Entry("Lift slope of a finite wing", "lifting line"),
    "flight.profile.profile_factors": Entry(
        "Profile power, torque and drag factors",
        "profile power in forward flight, 4.65, H-force",
        "profile_chart",
        {"advance_ratio": (0.0, 1.0)},
    ),
    "flight.rotor_power.rotor_power": Entry(
        "Rotor power by parts",
        "induced, profile and parasite power, shaft torque",
        "rotor_power_chart",
        {"propulsive_force": (-15000.0, 15000.0)},
        answer="power_of_rotor",
    ),
    "flight.decay.rotor_decay_time": Entry(
        "Rotor speed after loss of power",
        "rotor decay, rpm decay, time in hand, power failure",
        "rotor_decay_chart",
        {"speed_ratio": (0.6, 1.0)},
    ),
    "flight.decay.rotor_energy": Entry(
        "Energy of a turning rotor", "autorotation index, stored energy, rotor inertia"
    ),
    "flight.transition.transition": Entry(
        "Transition between flight modes",
        "transition, conversion, rotor speed history, drives off",
        "transition_chart",
    ),
    "flight.vibration_trend.blade_lift_harmonics": Entry(
        "Harmonics of blade lift",
        "harmonic airloads, vibration against airspeed, unloading the rotor",
        "vibration_trend_chart",
        {"advance_ratio": (0.15, 0.5), "blade_loading": (0.02, 0.12)},
    ),
    "flight.limits.flight_limits": Entry(
        "Governing limit at an airspeed, altitude and rotor speed",
        "limits chart, flight envelope, VNE, never exceed, slowed rotor",
        "flight_limits_chart",
        {"airspeed": (1.0, 120.0)},
    ),
    "flight.limits.rotor_speed_window": Entry(
        "Window of rotor speed", "slowed rotor, Nr range", answer="window_of_rotor_speed"
    ),
    "flight.limits.propeller_mach_limited_airspeed": Entry(
        "Airspeed at a propeller's Mach limit", "helical tip Mach limit"
    ),
    "flight.nacelle_whirl.whirl_frequencies": Entry(
        "Whirl of a nacelle with its propeller",
        "gyroscopic splitting, nacelle modes, precession",
        "whirl_frequencies_chart",
    ),
    "flight.nacelle_whirl.whirl_stability": Entry(
        "Whirl flutter boundary of a nacelle",
        "propeller whirl flutter, precession instability",
        "whirl_stability_chart",
    ),
    "flight.propeller_loads.propeller_loads": Entry(
        "Loads of a propeller at incidence",
        "1P, once per revolution, oblique inflow, yawed propeller, normal force, P-factor",
        "propeller_loads_chart",
        {"incidence": (0.0, math.radians(15.0))},
    ),
    "flight.autorotation.autorotation": Entry(
        "Autorotation at a rotor speed",
        "autorotative trim, zero shaft torque, rotor drag, lift to drag of a rotor",
        "autorotation_chart",
        {"rotor_speed": (RPM.si(150.0), RPM.si(300.0))},
        answer="autorotation_of_rotor",
    ),
    "flight.autorotation.autorotative_rotor_speed": Entry(
        "Rotor speed in autorotation at a collective pitch",
        "gyroplane rotor speed",
        "rotor_speed_chart",
        {"collective": (0.0, math.radians(12.0))},
        answer="speed_of_autorotation",
    ),
    "flight.autorotation.vertical_descent_speed": Entry(
        "Speed of a vertical descent in autorotation", "rate of descent, parachute"
    ),
    "flight.autorotative_stall.autorotative_stall_onset": Entry(
        "Stall onset in autorotation",
        "inboard stall, gyroplane stall",
        "autorotative_stall_chart",
        answer="stall_in_autorotation",
    ),
    "flight.propeller.propeller_power": Entry(
        "Propeller power and efficiency",
        "actuator disc, Froude efficiency",
        "propeller_chart",
        {"propeller_thrust": (0.0, 30000.0)},
        answer="power_of_propellers",
    ),
    "flight.level_power.level_flight_power": Entry(
        "Power in level flight by parts",
        "power required, helicopter mode, autorotative mode",
        "level_power_chart",
        {"airspeed": (25.0, 100.0)},
        answer="level_power",
    ),
    "flight.level_power.mode_crossover_airspeed": Entry(
        "Airspeed at which autorotation takes less power",
        "crossing airspeed, power crossover",
        "mode_crossover_chart",
        answer="mode_crossover",
    ),
    "flight.glide.glide": Entry(
        "Glide in autorotation",
        "least rate of descent, best glide airspeed, sink rate",
        "glide_chart",
    ),
    "flight.rotor_speed_range.rotor_speed_range": Entry(
        "Rotor speed range by 14 CFR 1509",
        "power-off rotor speed limits, NR limits, green arc",
        "rotor_speed_range_chart",
    ),
    "flight.rotor_speed_range.never_exceed_speed": Entry(
        "Never-exceed speed by 14 CFR 1505", "VNE, V_NE power off"
    ),
    "harmonics.blade_passage.blade_passage_frequency": Entry(
        "Blade passage frequency", "BPF, blade pass", answer="blade_passage"
    ),
    "harmonics.blade_passage.multiples": Entry(
        "Blade passage frequency and its multiples",
        "BPF, b/rev, N/rev, NP, 4P, blade pass",
        "multiples_chart",
    ),
    "rotor.stall_onset.stall_onset_airspeed": Entry(
        "Airspeed of retreating-blade stall onset",
        "RBS, blade stall, 12 degree limit",
        "stall_onset_chart",
        {"load_factor": (0.5, 3.0), "wing_lift_share": (0.0, 0.9)},
        answer="stall_onsets",
    ),
    "rotor.stall_onset.stall_state": Entry("Retreating blade in level flight"),
    "rotor.stall_onset.retreating_tip": Entry("Angle of attack of the retreating tip"),
    "rotor.atmosphere.standard_atmosphere": Entry(
        "Standard atmosphere", "ISA, ISO 2533, pressure altitude"
    ),
    "rotor.density_altitude.density_altitude_of_day": Entry("Density altitude", "DA"),
    "rotor.blade_loading.rotor_loading": Entry(
        "Solidity, thrust coefficient and blade loading", "CT, C_T, sigma, σ, CT/sigma"
    ),
    "rotor.blade_loading.lock_number": Entry("Lock number", "gamma, γ"),
    "rotor.weighted_solidity.weighted_solidity": Entry("Weighted solidity of a tapered blade"),
    "rotor.inflow.inflow_state": Entry("Inflow and induced speed", "Glauert, lambda, λ"),
    "rotor.level_flight.rotor_force": Entry(
        "Rotor force and tilt in level flight", "trim, propulsive force, compound"
    ),
    "rotor.stall_boundary.stall_boundary_blade_loading": Entry(
        "Blade loading at stall onset",
        "stall boundary, CT/sigma limit",
        "stall_boundary_chart",
        answer="stall_boundary",
    ),
    "rotor.airspeed_limits.airspeed_limits": Entry(
        "Airspeed limits against altitude",
        "tip Mach limit and stall against altitude, VNE",
        "airspeed_limits_chart",
    ),
    "harmonics.hub_filter.hub_filter": Entry(
        "Hub load transfer, rotating to fixed system",
        "hub filter, what reaches the airframe, kN±1, rotating and fixed frame, vertical shear",
        "hub_filter_chart",
        {"blades": (1, 8), "harmonic": (0, 24)},
    ),
    "harmonics.beats.beat": Entry(
        "Beat of two lines", "beating, frequency resolution, record length", "beat_chart"
    ),
    "blades.blade_data.mass_table": Entry(
        "Blade mass and moments from a mass table",
        "first moment, second moment, static moment, blade inertia, spanwise masses",
        "mass_table_chart",
    ),
    "blades.blade_data.two_scales": Entry(
        "Blade mass and first moment from two scales",
        "weighing a blade, moment weight, static moment",
    ),
    "blades.blade_swing.compound_pendulum": Entry(
        "Blade inertia from a swing", "compound pendulum, knife edge, swing test, inertia test"
    ),
    "blades.blade_swing.two_wires": Entry(
        "Blade inertia from two wires", "bifilar suspension, bifilar pendulum"
    ),
    "blades.rigid_blade.flap_frequency_ratio": Entry(
        "Flap frequency of a rigid blade", "ν_β, flap frequency ratio"
    ),
    "blades.rigid_blade.lag_frequency_ratio": Entry(
        "Lag frequency of a rigid blade", "ν_ξ, lag frequency ratio"
    ),
    "blades.rigid_blade.equivalent_hinge_offset": Entry("Equivalent hinge offset"),
    "blades.rotating_beam.uniform_beam": Entry("Uniform rotating beam"),
    "blades.tapered_beam.tapered_beam": Entry("Linearly tapered rotating beam", "taper"),
    "blades.blade_modes.blade_modes": Entry(
        "Natural frequencies and mode shapes of a blade",
        "blade modes, rotating modes, segments",
        "blade_modes_chart",
    ),
    "airframe.separation.separation": Entry(
        "Separation of a forcing line and a mode",
        "line against mode, frequency separation, margin, resonance check",
        "separation_chart",
        {"damping_ratio": (0.002, 0.2)},
    ),
    "airframe.single_mode.mode_response": Entry(
        "Response of a single mode",
        "dynamic magnification factor, amplification, phase lag, SDOF",
        "mode_response_chart",
        {"forcing_frequency": (1.0, 30.0), "damping_ratio": (0.002, 0.3)},
    ),
    "blades.rigid_blade.uniform_flap_frequency_ratio": Entry("Flap frequency of a uniform blade"),
    "blades.fixed_frame.fixed_frame": Entry(
        "Blade modes in the fixed system",
        "progressing, regressing, reactionless, differential, ω±Ω, multiblade, fixed frame",
    ),
    "blades.torsion.torsion": Entry(
        "First torsion frequency of a blade", "ν_θ, pitch mode, feathering"
    ),
    "blades.torsion.control_stiffness": Entry("Control stiffness of a pitch link"),
    "blades.southwell.southwell_coefficients": Entry("Southwell coefficients", "K_0, K_1"),
    "blades.southwell.southwell_frequency": Entry("Frequency in Southwell's form"),
    "blades.southwell.crossing_speed": Entry("Rotor speed where a mode crosses n/rev"),
    "blades.fan_plot.fan_plot": Entry(
        "Fan plot",
        "Campbell diagram, Southwell plot, n/rev crossings",
        "fan_plot_chart",
        {"hinge_offset": (0.0, 1.0), "tip_mass": (0.0, 10.0), "margin": (0.0, 0.4)},
    ),
    "airframe.swept_mode.swept_share": Entry(
        "Transient response in a sweep",
        "transient response ratio, run-up through resonance, sweep rate",
        "swept_share_chart",
    ),
    "airframe.modal_sum.modal_sum": Entry(
        "Modal superposition",
        "FRF, modal sum, sum of modes, antiresonance",
        "modal_sum_chart",
        {"forcing_frequency": (1.0, 30.0)},
    ),
    "airframe.source_response.source_response": Entry(
        "Resonant response over rotor speed",
        "speed sweep, resonance, imbalance response",
        "source_response_chart",
    ),
    "harmonics.beats.beat_envelope": Entry("Envelope of two lines"),
    "harmonics.hub_filter.uneven_hub_harmonics": Entry(
        "Hub load transfer of dissimilar blades", "blade-to-blade dissimilarity, blade spacing"
    ),
    "harmonics.planetary.planetary_stage": Entry(
        "Planetary stage", "epicyclic gear, planet pass, ring fixed, gear fault frequency"
    ),
    "harmonics.planetary_sidebands.planetary_sidebands": Entry(
        "Planetary sidebands at a fixed ring sensor",
        "epicyclic sidebands, suppressed mesh, planet phasing, assembly condition",
        "planetary_sidebands_chart",
        {"half_angle": (math.radians(10.0), math.radians(120.0))},
    ),
    "harmonics.sources.source_table": Entry(
        "Forcing frequencies of a drive train",
        "source table, excitation table, frequency table, gear mesh, sidebands, engine order",
        "source_table_chart",
    ),
    "harmonics.separation_margin.separation_margin": Entry(
        "Separation margin for an amplification", "frequency margin, avoid band margin"
    ),
    "harmonics.coincidence.coincidence": Entry(
        "Avoid bands",
        "speeds to avoid, restricted rotor speed range, resonance placard, coincidence map",
        "coincidence_chart",
        {
            "rotor_speed": (RPM.si(60.0), RPM.si(290.0)),
            "second_speed": (RPM.si(500.0), RPM.si(1300.0)),
            "margin": (0.0, 0.2),
        },
    ),
    "harmonics.run_up.run_up": Entry(
        "Crossings of a run-up", "ground run, spin-up, rotor start, run-down", "run_up_chart"
    ),
    "measurement.damping_trend.damping_run": Entry(
        "Damping against rotor speed",
        "stop criterion, damping trend, subcritical damping, regressing lag damping, when to stop",
        "damping_run_chart",
    ),
    "measurement.decay.peaks_decay": Entry(
        "Damping from the peaks of a decay",
        "logarithmic decrement, log dec, free decay, stick stir, ring-down",
        "peaks_decay_chart",
        modes="peaks_mode",
    ),
    "measurement.decay.damping_from_growth": Entry(
        "Damping ratio of a growth rate",
        "real part of the eigenvalue, decay rate",
        modes="growth_mode",
    ),
    "measurement.response.half_power": Entry(
        "Damping from half-power points",
        "3 dB bandwidth, half-power bandwidth, Q factor",
        modes="half_power_mode",
    ),
    "measurement.response.window_damping": Entry(
        "Damping that an exponential window adds", "exponential window correction"
    ),
    "measurement.response.circle_of_points": Entry(
        "Damping from the circle of a response",
        "circle fit, Nyquist plot, mobility circle, FRF curve fit",
        "circle_chart",
        modes="circle_mode",
    ),
    "measurement.settling.dwell_and_sweep": Entry(
        "Settling time and sweep rate",
        "dwell time, how long to wait, transient, sweep limit",
        "dwell_and_sweep_chart",
        {"damping_ratio": (0.002, 0.1)},
    ),
    "measurement.levels.displacement_line": Entry(
        "Displacement of a line in every measure",
        "unit conversion of vibration, mil to ips, mm to g, peak to rms, peak to peak",
    ),
    "measurement.levels.velocity_line": Entry(
        "Velocity of a line in every measure",
        "unit conversion of vibration, ips to g, ips to mm/s, inches per second, VdB",
    ),
    "measurement.levels.acceleration_line": Entry(
        "Acceleration of a line in every measure",
        "unit conversion of vibration, g to ips, g to mil, AdB",
    ),
    "measurement.levels.velocity_at_level": Entry("Velocity at a level", "decibels to velocity"),
    "measurement.levels.acceleration_at_level": Entry(
        "Acceleration at a level", "decibels to g, dB re 1 µm/s²"
    ),
    "measurement.levels.crossover_frequency": Entry(
        "Crossover frequency of a displacement and an acceleration limit"
    ),
    "measurement.balance.single_plane": Entry(
        "Balance in one plane",
        "dynamic balance, propeller balance, trial weight, influence coefficient",
        "single_plane_chart",
    ),
    "measurement.balance_planes.several_planes": Entry(
        "Balance in several planes and at several speeds",
        "two-plane balance, multiplane balance, least squares, influence coefficients",
        "several_planes_chart",
    ),
    "measurement.balance_blades.blade_balance": Entry(
        "Balance by blades: weights, pitch links and tabs",
        "track and balance, rotor smoothing, 1/rev",
        "blade_balance_chart",
    ),
    "measurement.four_runs.without_phase": Entry(
        "Balance without phase",
        "four-run method, three trial positions, balance by amplitude only",
        "without_phase_chart",
    ),
    "measurement.split_weight.split": Entry(
        "Splitting a weight",
        "weights on holes, weight on two blades, component weights",
        "split_chart",
    ),
    "measurement.residual_unbalance.permissible_unbalance": Entry(
        "Permissible residual unbalance",
        "balance quality grade, G 6.3, G 2.5, balance tolerance",
        answer="permissible",
    ),
    "measurement.residual_unbalance.unbalance_force": Entry("Force of an unbalance"),
    "measurement.residual_unbalance.expected_residual": Entry(
        "Expected residual of a correction",
        "balance error, wrong phase, wrong influence coefficient",
        "expected_residual_chart",
    ),
    "measurement.accelerometers.channel_plan": Entry(
        "Motions that a plan of accelerometers separates",
        "accelerometer locations, sensor placement, channel list, hub translation and pitch and "
        "roll, instrumentation",
    ),
    "measurement.hub_whirl.whirl": Entry(
        "Whirl direction from two accelerometers",
        "forward whirl, backward whirl, orbit, precession direction",
    ),
    "measurement.sensor_errors.sensor_amplitude_error": Entry(
        "Amplitude error of a mounted accelerometer",
        "mounted resonance, usable frequency range of a sensor",
        "sensor_chart",
    ),
    "measurement.sensor_errors.high_pass_gain": Entry(
        "Gain and phase of an AC coupling",
        "high-pass filter, low-frequency roll-off, phase error at 1/rev",
        "coupling_chart",
        answer="ac_coupling",
    ),
    "measurement.sensor_errors.loaded_frequency": Entry(
        "Frequency of a part that carries a sensor", "mass loading by an accelerometer"
    ),
    "measurement.sensor_errors.quantisation_rms": Entry(
        "Rounding noise of a converter",
        "quantisation, quantization, bits, resolution of a recorder",
        answer="quantisation",
    ),
    "measurement.measurement_plan.measurement_plan": Entry(
        "Plan of a measurement",
        "test design, sample rate, record length, number of averages, dwell, time on condition",
    ),
    "measurement.test_design.required_averages": Entry("Averages for a random error"),
    "measurement.test_design.dwell_time": Entry("Time that overlapping blocks take"),
    "measurement.test_design.lines_in_half_power_band": Entry(
        "Lines inside the half-power width of a mode"
    ),
    "measurement.uncertainty.uncertainty_budget": Entry(
        "Uncertainty budget of a measured amplitude",
        "measurement uncertainty, error budget, root sum of squares",
    ),
    "ground.assessment.assessment": Entry(
        "Ground resonance over the landing-gear states",
        "ground instability, mechanical instability, time to double",
        "assessment_chart",
        {"lag_damping": (0.0, 10_000.0)},
    ),
    "ground.coleman_diagram.coleman_diagram": Entry(
        "Coleman diagram",
        "Campbell diagram in the fixed frame, regressing lag mode, progressing lag mode",
        "coleman_chart",
        {"lag_damping": (0.0, 10_000.0)},
    ),
    "ground.criterion.damping_product": Entry(
        "Deutsch criterion (damping product)", "product criterion, product of damping"
    ),
    "ground.hub_damping_floor.hub_damping_floor": Entry(
        "Minimum support damping for heavily damped blades", "hub damping floor"
    ),
    "ground.isotropic.undamped_band": Entry(
        "Coleman instability range, zero damping",
        "undamped band, isotropic support",
        "band_chart",
    ),
    "ground.required_damping.required_lag_damping": Entry(
        "Required lag damping", "minimum lag damping", "required_lag_damping_chart"
    ),
    "ground.required_damping.required_support_damping": Entry(
        "Required support damping", "undercarriage damping"
    ),
    "ground.degraded_damper.degraded_damper": Entry(
        "One lag damper degraded or seized",
        "one damper inoperative, dissimilar dampers, Floquet",
        "degraded_damper_chart",
    ),
    "ground.degraded_damper.critical_damper_share": Entry(
        "Least damping of one lag damper", "critical share"
    ),
    "ground.modal_support.modal_support": Entry(
        "Ground resonance on airframe-on-gear modes",
        "modal support, fuselage modes, hub modes",
        "modal_support_chart",
    ),
    "ground.measured_modes.measured_modes": Entry(
        "Ground resonance of measured modes",
        "shake test to verdict, one damper inoperative, one damper seized, airframe-on-gear modes",
        "measured_modes_chart",
        {"damper_share": (0.0, 1.0)},
        modes="typed_modes",
    ),
    "ground.shake_test.hub_data": Entry(
        "Hub data from a shake test",
        "modal data to hub data, ground vibration test, effective hub mass",
        modes="hub_modes",
    ),
    "ground.shake_test.added_mass": Entry(
        "Effective hub mass from an added mass", "mass loading, added-mass test"
    ),
    "ground.body_on_gear.body_on_gear": Entry(
        "Rigid-body modes on the landing gear",
        "body on gear, roll mode, lateral mode, effective hub mass",
    ),
    "ground.damper.linear_damper": Entry("Lag damping of a linear damper"),
    "ground.damper.elastomeric_damper": Entry("Lag damping of an elastomeric damper"),
    "ground.damper.interblade_damper": Entry("Lag damping of interblade dampers"),
    "ground.damper_test.decay_damping": Entry(
        "Lag damping from a decay", "logarithmic decrement, ring-down of a blade, pluck test"
    ),
    "ground.damper_test.energy_damping": Entry(
        "Lag damping from the energy of a cycle", "equivalent viscous damping"
    ),
    "ground.damper_test.loop_damping": Entry(
        "Lag damping from a measured loop",
        "hysteresis loop, force-stroke loop, damper rig, damper bench test",
        "loop_chart",
    ),
    "ground.nonlinear_damper.friction_damper": Entry(
        "Lag damping of friction", "Coulomb damper", "friction_chart"
    ),
    "ground.nonlinear_damper.orifice_damper": Entry(
        "Lag damping of an orifice", "hydraulic damper", "orifice_chart"
    ),
    "ground.time_history.time_history": Entry(
        "Time history of lag and hub motion", "growth after a disturbance", "time_history_chart"
    ),
    "ground.whirl_view.bunching": Entry(
        "Rotor-hub orbit animation",
        "whirl view, blades bunching, mechanism",
        "whirl_chart",
    ),
    "ground.run_plan.plan": Entry(
        "Ground-run plan", "test plan, test matrix, speed steps", "plan_chart"
    ),
    "ground.step_order.order_check": Entry(
        "Build-up sequence check", "step order, order of speed steps"
    ),
    "measurement.windows.window_properties": Entry(
        "Properties of a window",
        "window function, ENBW, noise bandwidth, scalloping loss, picket fence, flat top, Hanning",
        "window_chart",
    ),
    "measurement.windows.leakage": Entry("Leakage of a tone onto a line", "spectral leakage"),
    "measurement.windows.overlap_correlation": Entry(
        "Correlation of overlapping blocks", "overlap", "correlation_chart"
    ),
    "measurement.spectrum.told_apart": Entry(
        "Can two lines be told apart",
        "resolution, line spacing, bin width, separating two lines",
        "told_apart_chart",
    ),
    "measurement.spectrum.record_length_to_separate": Entry(
        "Record length that separates two lines", "frequency resolution"
    ),
    "measurement.spectrum.smallest_speed_difference": Entry(
        "Smallest speed difference that a record shows"
    ),
    "measurement.spectrum.equivalent_averages": Entry(
        "Averages of overlapping blocks",
        "equivalent averages, segment averaging, number of averages",
        "averages_chart",
        answer="averaged_blocks",
    ),
    "measurement.spectrum.random_error": Entry("Random error of a power density", "PSD error"),
    "measurement.spectrum.frf_random_error": Entry(
        "Random error of a frequency response", "FRF error, coherence"
    ),
    "measurement.spectrum.aliased_frequency": Entry(
        "Frequency at which an alias is seen", "aliasing, folding, Nyquist", "alias_chart"
    ),
    "measurement.spectrum.alias_candidates": Entry(
        "Frequencies behind a line", "alias candidates", answer="candidates"
    ),
    "measurement.orders.comb_gain": Entry(
        "Fraction left by a synchronous average",
        "comb filter, time synchronous average, TSA",
        "comb_gain_chart",
    ),
    "measurement.orders.smear_lines": Entry(
        "Smear of a line by drift of speed",
        "smearing, speed drift, amplitude of a drifting line",
        "smear_chart",
        {"relative_drift": (0.0, 0.05)},
        answer="smear_of_line",
    ),
    "measurement.orders.smear_gain": Entry("Reading of a smeared line under a window"),
    "measurement.orders.timing_phase_error": Entry(
        "Phase error of late pulses", "tachometer delay, keyphasor timing, trigger edge"
    ),
    "measurement.orders.linear_interpolation_gain": Entry(
        "Loss by straight lines between samples",
        "linear interpolation, resampling error",
        "interpolation_chart",
    ),
    "measurement.attribution.measured_peaks": Entry(
        "Peaks explained",
        "peak attribution, what is this line, which source makes a peak, missing lines",
        "measured_peaks_chart",
    ),
    "measurement.attribution.source_tolerance": Entry(
        "Tolerance of a source in a spectrum", "matching tolerance of a peak"
    ),
}


def formula(name: str) -> Callable[..., Any]:
    """Return a formula of the catalogue; its module is imported on first use."""
    return _function(name, entry(name).answer or name.rpartition(".")[2])


def chart(name: str) -> Callable[..., Any] | None:
    """Return the function that draws a formula's figure, or None if it has none."""
    return _function(name, entry(name).chart) if entry(name).chart else None


def found_modes(name: str) -> Callable[..., Any] | None:
    """Return the function that tells which modes a formula found, or None if it finds none."""
    return _function(name, entry(name).modes) if entry(name).modes else None


def entry(name: str) -> Entry:
    """Return the catalogue's entry of a formula."""
    if name not in FORMULAS:
        raise ValueError(f"No formula is called {name}")
    return FORMULAS[name]


def _function(name: str, function: str) -> Callable[..., Any]:
    entry(name)
    return getattr(import_module(f"calc.{name.rpartition('.')[0]}"), function)  # type: ignore[no-any-return]
