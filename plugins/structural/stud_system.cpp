#include "plugins/structural/stud_system.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace panel_dossier::structural {

namespace {

constexpr double kEndOnSupport_m = 0.1;
constexpr double kSameLevel_m = 0.001;
constexpr double kNoShear = std::numeric_limits<double>::infinity();

/// Heights of the panel's supports, from its foot up.
std::vector<double> levels_of(const DesignBasis& basis) {
  std::vector<double> levels{0.0};
  if (basis.support_spacing_m) {
    for (int i = 1; i * *basis.support_spacing_m < basis.top_support_m - kSameLevel_m; ++i) {
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
  if (to_m - from_m < kSameLevel_m) return {};
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

double moment_at(const BeamResult& result, double place_m) {
  const auto after = std::find_if(result.points.begin(), result.points.end(),
                                  [&](const BeamPoint& point) { return point.x_m >= place_m; });
  if (after == result.points.end()) return 0.0;
  if (after == result.points.begin()) return after->moment_nm;
  const auto before = after - 1;
  const double gap_m = after->x_m - before->x_m;
  const double share = gap_m > 0.0 ? (place_m - before->x_m) / gap_m : 1.0;
  return before->moment_nm + share * (after->moment_nm - before->moment_nm);
}

}  // namespace

double StudSystem::longest_span_m() const {
  const std::vector<double> spans = spans_of(*this);
  return spans.empty() ? length_m : *std::max_element(spans.begin(), spans.end());
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
      if (level > system.foot_m + kEndOnSupport_m && level < head_m - kSameLevel_m) {
        system.supports_m.push_back(level - system.foot_m);
      }
    }
    if (!projects) system.supports_m.push_back(system.length_m);
    system.clamped_foot = system.supports_m.size() == 1;
  }
  for (const double splice_m : member.splices_m) system.splices_m.push_back(splice_m - system.foot_m);
  return system;
}

UnitEffects unit_effects(const StudSystem& system) {
  // Stiffness does not matter: the beam is the same all along.
  const Beam beam = beam_of(system, 1.0, kNoShear);
  UnitEffects effects;
  effects.loaded = solve_beam(beam, load_between(0.0, system.length_m, 1.0), {});
  const BeamResult below = solve_beam(beam, load_between(0.0, system.supports_m.back(), 1.0), {});
  effects.moment_m2 = std::max(largest_moment_nm(effects.loaded), largest_moment_nm(below));
  effects.shear_m = std::max(largest_shear_n(effects.loaded), largest_shear_n(below));
  for (const double splice_m : system.splices_m) {
    effects.splice_moment_m2 = std::max(effects.splice_moment_m2, std::abs(moment_at(effects.loaded, splice_m)));
  }
  if (system.spliced) {
    for (const double span_m : spans_of(system)) {
      effects.moment_m2 = std::max(effects.moment_m2, span_m * span_m / 8.0);
    }
  }
  return effects;
}

SpanDeflection span_deflection(const StudSystem& system, double line_load_n_per_m, double bending_stiffness_nm2,
                               double shear_stiffness_n) {
  const double w = line_load_n_per_m;
  const Beam stiff = beam_of(system, bending_stiffness_nm2, kNoShear);
  const Beam whole = beam_of(system, bending_stiffness_nm2, shear_stiffness_n);
  const double top_m = system.supports_m.back();
  SpanDeflection worst;
  for (const double loaded_to_m : {system.length_m, top_m}) {
    const auto load = load_between(0.0, loaded_to_m, w);
    const BeamResult bent = solve_beam(stiff, load, {});
    const BeamResult both = solve_beam(whole, load, {});
    for (std::size_t i = 0; i + 1 < system.supports_m.size(); ++i) {
      const double from_m = system.supports_m[i];
      const double to_m = system.supports_m[i + 1];
      double bending_m = largest_deflection_m(bent, from_m, to_m);
      double total_m = largest_deflection_m(both, from_m, to_m);
      if (system.spliced) {
        const Beam simple{to_m - from_m, {0.0, to_m - from_m}, false, bending_stiffness_nm2, shear_stiffness_n};
        const double simple_m =
            largest_deflection_m(solve_beam(simple, {{0.0, simple.length_m, w}}, {}), 0.0, simple.length_m);
        if (simple_m > total_m) {
          total_m = simple_m;
          bending_m = simple_m - w * simple.length_m * simple.length_m / (8.0 * shear_stiffness_n);
        }
      }
      if (worst.span_m > 0.0 && total_m / (to_m - from_m) <= worst.total_m() / worst.span_m) continue;
      worst.span_m = to_m - from_m;
      worst.bending_m = bending_m;
      worst.shear_m = std::max(0.0, total_m - bending_m);
    }
  }
  if (system.length_m > top_m + kSameLevel_m) {
    const BeamResult above = solve_beam(whole, load_between(top_m, system.length_m, w), {});
    worst.tip_m = std::abs(above.points.back().deflection_m);
  }
  return worst;
}

}  // namespace panel_dossier::structural
