#include "plugins/structural/studs/stud_system.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/api/support/tolerances.h"

namespace panel_dossier::structural {

namespace {

constexpr double kEndOnSupport_m = 0.1;
constexpr double kNoShear = std::numeric_limits<double>::infinity();

/// Heights of the panel's supports, from its foot up.
std::vector<double> levels_of(const DesignBasis& basis) {
  std::vector<double> levels{0.0};
  if (basis.support_spacing_m) {
    for (int i = 1; i * *basis.support_spacing_m < basis.top_support_m - tolerance::kModelling_m; ++i) {
      levels.push_back(i * *basis.support_spacing_m);
    }
  }
  levels.push_back(basis.top_support_m);
  return levels;
}

double snapped(double height_m, const std::vector<double>& levels) {
  for (const double level : levels) {
    if (std::abs(level - height_m) <= kEndOnSupport_m) return level;
  }
  return height_m;
}

std::vector<UniformLoad> load_between(double from_m, double to_m, double n_per_m) {
  if (to_m - from_m < tolerance::kModelling_m) return {};
  return {{from_m, to_m, n_per_m}};
}

Beam beam_of(const StudSystem& system, double bending_stiffness_nm2, double shear_stiffness_n) {
  return {system.length_m, system.supports_m, system.clamped_foot, bending_stiffness_nm2, shear_stiffness_n};
}

std::vector<double> spans_of(const StudSystem& system) {
  std::vector<double> spans;
  for (std::size_t i = 0; i + 1 < system.supports_m.size(); ++i) {
    spans.push_back(system.supports_m[i + 1] - system.supports_m[i]);
  }
  return spans;
}

/// The point loads strictly between two places, as seen from the first.
std::vector<PointLoad> within(const std::vector<PointLoad>& point, double from_m, double to_m) {
  std::vector<PointLoad> found;
  for (const PointLoad& load : point) {
    if (load.at_m > from_m + tolerance::kModelling_m && load.at_m < to_m - tolerance::kModelling_m)
      found.push_back({load.at_m - from_m, load.n});
  }
  return found;
}

/// A piece hinged at both its supports.
SpanDeflection simple_span(double from_m, double to_m, double line_load_n_per_m, const std::vector<PointLoad>& point,
                           Beam stiff, Beam whole) {
  const double l = to_m - from_m;
  const std::vector<PointLoad> on_it = within(point, from_m, to_m);
  for (Beam* beam : {&stiff, &whole}) {
    beam->length_m = l;
    beam->supports_m = {0.0, l};
  }
  SpanDeflection result;
  result.span_m = l;
  const std::vector<UniformLoad> load{{0.0, l, line_load_n_per_m}};
  result.bending_m = largest_deflection_m(solve_beam(stiff, load, on_it), 0.0, l);
  result.shear_m = largest_deflection_m(solve_beam(whole, load, on_it), 0.0, l) - result.bending_m;
  return result;
}

}  // namespace

double StudSystem::longest_span_m() const {
  const std::vector<double> spans = spans_of(*this);
  return spans.empty() ? length_m : *std::max_element(spans.begin(), spans.end());
}

bool StudSystem::held_at(double height_m) const {
  return std::any_of(supports_m.begin(), supports_m.end(),
                     [&](double support_m) { return std::abs(foot_m + support_m - height_m) <= kEndOnSupport_m; });
}

bool panel_held_at(const DesignBasis& basis, double height_m) {
  const std::vector<double> levels = levels_of(basis);
  return std::any_of(levels.begin(), levels.end(),
                     [&](double level_m) { return std::abs(level_m - height_m) <= kEndOnSupport_m; });
}

StudSystem stud_system(const VerticalMember& member, const DesignBasis& basis) {
  StudSystem system;
  system.spliced = member.parts.size() > 1;
  if (!basis.support_spacing_m && basis.projection_m == 0.0) {
    system.foot_m = member.bottom_m;
    system.length_m = member.length_m();
    system.supports_m = {0.0, system.length_m};
  } else {
    const std::vector<double> levels = levels_of(basis);
    const double panel_head_m = basis.top_support_m + basis.projection_m;
    system.foot_m = snapped(member.bottom_m, levels);
    const bool projects = member.top_m > basis.top_support_m + kEndOnSupport_m;
    const double head_m = projects ? snapped(member.top_m, {panel_head_m}) : snapped(member.top_m, levels);
    system.length_m = head_m - system.foot_m;
    if (system.length_m < kEndOnSupport_m) {
      // A piece no longer than a rail is deep: nothing but its own ends holds it.
      system.foot_m = member.bottom_m;
      system.length_m = member.length_m();
      system.supports_m = {0.0, system.length_m};
      return system;
    }
    system.supports_m = {0.0};
    for (const double level : levels) {
      if (level > system.foot_m + kEndOnSupport_m && level < head_m - tolerance::kModelling_m) {
        system.supports_m.push_back(level - system.foot_m);
      }
    }
    if (!projects) system.supports_m.push_back(system.length_m);
    system.clamped_foot = system.supports_m.size() == 1;
  }
  return system;
}

StudEffects stud_effects(const StudSystem& system, double line_load_n_per_m, const std::vector<PointLoad>& point) {
  // Stiffness does not matter: the beam is the same all along.
  const Beam beam = beam_of(system, 1.0, kNoShear);
  const std::vector<PointLoad> on_it = within(point, 0.0, system.length_m);
  StudEffects effects;
  effects.loaded = solve_beam(beam, load_between(0.0, system.length_m, line_load_n_per_m), on_it);
  const BeamResult below = solve_beam(beam, load_between(0.0, system.supports_m.back(), line_load_n_per_m), on_it);
  effects.moment_nm = std::max(largest_moment_nm(effects.loaded), largest_moment_nm(below));
  effects.shear_n = std::max(largest_shear_n(effects.loaded), largest_shear_n(below));
  if (!system.spliced) return effects;
  for (std::size_t i = 0; i + 1 < system.supports_m.size(); ++i) {
    const double from_m = system.supports_m[i];
    const double to_m = system.supports_m[i + 1];
    const Beam simple{to_m - from_m, {0.0, to_m - from_m}, false, 1.0, kNoShear};
    const BeamResult hinged =
        solve_beam(simple, {{0.0, simple.length_m, line_load_n_per_m}}, within(point, from_m, to_m));
    effects.moment_nm = std::max(effects.moment_nm, largest_moment_nm(hinged));
  }
  return effects;
}

SpanDeflection span_deflection(const StudSystem& system, double line_load_n_per_m, const std::vector<PointLoad>& point,
                               double bending_stiffness_nm2, double shear_stiffness_n) {
  const double w = line_load_n_per_m;
  const Beam stiff = beam_of(system, bending_stiffness_nm2, kNoShear);
  const Beam whole = beam_of(system, bending_stiffness_nm2, shear_stiffness_n);
  const double top_m = system.supports_m.back();
  const std::vector<PointLoad> on_it = within(point, 0.0, system.length_m);
  SpanDeflection worst;
  for (const double loaded_to_m : {system.length_m, top_m}) {
    const auto load = load_between(0.0, loaded_to_m, w);
    const BeamResult bent = solve_beam(stiff, load, on_it);
    const BeamResult both = solve_beam(whole, load, on_it);
    for (std::size_t i = 0; i + 1 < system.supports_m.size(); ++i) {
      const double from_m = system.supports_m[i];
      const double to_m = system.supports_m[i + 1];
      double bending_m = largest_deflection_m(bent, from_m, to_m);
      double total_m = largest_deflection_m(both, from_m, to_m);
      if (system.spliced) {
        const SpanDeflection simple = simple_span(from_m, to_m, w, point, stiff, whole);
        if (simple.total_m() > total_m) {
          total_m = simple.total_m();
          bending_m = simple.bending_m;
        }
      }
      if (worst.span_m > 0.0 && total_m / (to_m - from_m) <= worst.total_m() / worst.span_m) continue;
      worst.span_m = to_m - from_m;
      worst.bending_m = bending_m;
      worst.shear_m = std::max(0.0, total_m - bending_m);
    }
  }
  if (system.length_m > top_m + tolerance::kModelling_m) {
    const BeamResult above = solve_beam(whole, load_between(top_m, system.length_m, w), {});
    worst.tip_m = std::abs(above.points.back().deflection_m);
  }
  return worst;
}

}  // namespace panel_dossier::structural
