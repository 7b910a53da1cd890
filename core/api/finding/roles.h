// What the dossier, the labels and the safety file ask for, whichever plugin gives it.
#pragma once

#include <array>
#include <string_view>

/// A check claims a role in its declaration; one check a role. Each role names what a finding of it must hold.
namespace panel_dossier::role {

/// Value in kg: nominal mass of the panel; of the project: of all panels.
inline constexpr std::string_view kMass = "mass";

/// Value in m²: net area of the panel. Named values `gross` and `openings` in m².
inline constexpr std::string_view kArea = "area";

/// Named values `from_left_edge`, `from_inner_face` and `from_foot` in m, in the panel's frame.
inline constexpr std::string_view kCentreOfGravity = "centre_of_gravity";

/// A table of id `pieces`, one row a piece to cut or a group of equal ones, with columns `part mark`, `kind`,
/// `material` and `shape` in words, `thickness`, `width` and `length` in mm, and `count`.
inline constexpr std::string_view kCuttingList = "cutting_list";

/// Named values `batch` and `erection_order`, as text.
inline constexpr std::string_view kErection = "erection";

/// The findings of lifting points: where a dossier has them, the safety file points to them. Value in kN: pull in the
/// hardest pulled point, against its limit. Named values, as far as known: `points`, and `stop_wind` in m/s, the wind
/// at which lifting stops.
inline constexpr std::string_view kLifting = "lifting";

/// Claimed by one check of the discipline whose findings make the dossier's part on fire safety.
inline constexpr std::string_view kFireSafety = "fire_safety";

/// Value in W/(m²·K): U-value of the panel without its openings.
inline constexpr std::string_view kThermalTransmittance = "thermal_transmittance";

/// Value a class in words, `EI 60`: fire resistance that the panel has, as a part that separates.
inline constexpr std::string_view kFireResistance = "fire_resistance";

/// Value a class in words, `R 60`, or words that none is asked for: how long the panel carries load in a fire.
inline constexpr std::string_view kBearingInFire = "bearing_in_fire";

/// Value of the air test of the panel, in its own unit.
inline constexpr std::string_view kAirTest = "air_test";

/// Turning the panel from lying flat to upright: what bends, against its limit, or in words how it is turned.
inline constexpr std::string_view kTurningUp = "turning_up";

/// Of the project, a table of id `panels_by_load`, one row a panel, with columns `load`, the number of the vehicle's
/// load, and `global id`.
inline constexpr std::string_view kDeliveries = "deliveries";

/// Value in kg: what hangs on the crane's hook, against what the crane lifts there. Named value `radius` in m.
inline constexpr std::string_view kHookLoad = "hook_load";

/// Every role; a declaration that claims another is refused.
inline constexpr std::array<std::string_view, 14> kAll{
    kMass,           kArea,          kCentreOfGravity, kCuttingList,
    kErection,       kLifting,       kFireSafety,      kThermalTransmittance,
    kFireResistance, kBearingInFire, kAirTest,         kHookLoad,
    kTurningUp,      kDeliveries};

}  // namespace panel_dossier::role
