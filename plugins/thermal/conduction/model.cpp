#include "plugins/thermal/conduction/model.h"

#include <array>
#include <charconv>
#include <cmath>
#include <initializer_list>
#include <stdexcept>

namespace panel_dossier::thermal::conduction {

namespace {

[[noreturn]] void refuse(const std::string& what) {
  throw std::invalid_argument(what);
}

/// The shortest text that reads back to the same number.
std::string exact_text(double value) {
  std::array<char, 32> buffer{};
  const auto result = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
  return {buffer.data(), result.ptr};
}

void append(std::string& text, std::initializer_list<double> values) {
  for (const double value : values) text += exact_text(value) + ' ';
}

void append(std::string& text, const Box3& box) {
  append(text, {box.min.x, box.min.y, box.min.z, box.max.x, box.max.y, box.max.z});
}

void check_box(const Model& model, const Box3& box, const std::string& label) {
  for (const double value : {box.min.x, box.min.y, box.min.z, box.max.x, box.max.y, box.max.z}) {
    if (!std::isfinite(value)) refuse(label + " has a coordinate that is not a number");
  }
  const Vec3 size = box.size();
  if (size.x <= kSamePlane_m || size.y <= kSamePlane_m || size.z <= kSamePlane_m) refuse(label + " has no size");
  if (model.two_dimensional && (box.min.z != 0.0 || box.max.z != 1.0)) {
    refuse(label + " of a two-dimensional model does not span z from 0 to 1 m");
  }
}

void check_solids(const Model& model) {
  if (model.solids.empty()) refuse("the model has no solid");
  for (const SolidBox& solid : model.solids) {
    const std::string label = "solid '" + solid.name + "'";
    check_box(model, solid.box, label);
    if (!std::isfinite(solid.conductivity_w_per_mk) || solid.conductivity_w_per_mk <= 0.0) {
      refuse(label + " has a thermal conductivity that is not above 0");
    }
  }
}

bool overlap(const Box3& a, const Box3& b) {
  const auto common = intersection(a, b);
  if (!common) return false;
  const Vec3 size = common->size();
  return size.x > kSamePlane_m && size.y > kSamePlane_m && size.z > kSamePlane_m;
}

void check_overlaps(const Model& model) {
  for (auto a = model.environment_boxes.begin(); a != model.environment_boxes.end(); ++a) {
    for (auto b = a + 1; b != model.environment_boxes.end(); ++b) {
      const bool same =
          a->environment == b->environment && a->surface_resistance_m2k_per_w == b->surface_resistance_m2k_per_w;
      if (same || !overlap(a->box, b->box)) continue;
      refuse("boxes of the environments '" + model.environments[a->environment].name + "' and '" +
             model.environments[b->environment].name + "' overlap");
    }
  }
}

void check_environments(const Model& model) {
  if (model.environment_boxes.empty()) refuse("the model has no environment");
  for (const Environment& environment : model.environments) {
    if (!std::isfinite(environment.temperature_c)) {
      refuse("environment '" + environment.name + "' has a temperature that is not a number");
    }
  }
  for (const EnvironmentBox& room : model.environment_boxes) {
    if (room.environment >= model.environments.size()) refuse("a box names an environment that is not there");
    const std::string label = "a box of environment '" + model.environments[room.environment].name + "'";
    check_box(model, room.box, label);
    if (!std::isfinite(room.surface_resistance_m2k_per_w) || room.surface_resistance_m2k_per_w < 0.0) {
      refuse(label + " has a surface resistance below 0");
    }
  }
  check_overlaps(model);
}

}  // namespace

Box3 box_2d(double x_min_m, double y_min_m, double x_max_m, double y_max_m) {
  return {{x_min_m, y_min_m, 0.0}, {x_max_m, y_max_m, 1.0}};
}

void check(const Model& model) {
  check_solids(model);
  check_environments(model);
}

std::string identity(const Model& model) {
  std::string text = model.two_dimensional ? "2\n" : "3\n";
  for (const SolidBox& solid : model.solids) {
    append(text, solid.box);
    append(text, {solid.conductivity_w_per_mk});
    text += solid.surface_counts ? "\n" : "uncounted\n";
  }
  for (const Environment& environment : model.environments) append(text, {environment.temperature_c});
  text += '\n';
  for (const EnvironmentBox& room : model.environment_boxes) {
    text += std::to_string(room.environment) + ' ';
    append(text, room.box);
    append(text, {room.surface_resistance_m2k_per_w});
    text += '\n';
  }
  return text;
}

}  // namespace panel_dossier::thermal::conduction
