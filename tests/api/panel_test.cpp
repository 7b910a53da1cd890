#include "core/api/model/panel.h"

#include <catch2/catch.hpp>

using namespace panel_dossier;

namespace {

Part part_between(double y_inside_m, double y_outside_m) {
  Part part;
  part.bounds = Box3{{0.0, y_inside_m, 0.0}, {1.0, y_outside_m, 1.0}};
  return part;
}

Layer layer_between(double y_inside_m, double y_outside_m) {
  Layer layer;
  layer.y_inside_m = y_inside_m;
  layer.y_outside_m = y_outside_m;
  return layer;
}

Opening opening(double x_min_m, double x_max_m, double z_min_m, double z_max_m) {
  Opening result;
  result.x_min_m = x_min_m;
  result.x_max_m = x_max_m;
  result.z_min_m = z_min_m;
  result.z_max_m = z_max_m;
  return result;
}

}  // namespace

TEST_CASE("net area is gross area less every opening") {
  Panel panel;
  panel.width_m.value = 4.0;
  panel.height_m.value = 3.0;
  panel.openings = {opening(0.5, 1.5, 1.0, 2.5), opening(2.0, 3.0, 0.0, 2.0)};
  CHECK(panel.gross_area_m2() == 12.0);
  CHECK(panel.opening_area_m2() == 3.5);
  CHECK(panel.net_area_m2() == 8.5);
}

TEST_CASE("a part that reaches halfway through a layer belongs to it") {
  Panel panel;
  panel.parts = {part_between(0.0, 0.07), part_between(0.0, 0.06), part_between(0.05, 0.2), part_between(0.14, 0.2)};
  panel.parts.emplace_back();  // without geometry
  CHECK(parts_in_layer(panel, layer_between(0.0, 0.14)) == std::vector<std::size_t>{0, 2});
}

TEST_CASE("a turned panel's box in the world holds its corners") {
  Panel panel;
  panel.width_m.value = 3.0;
  panel.height_m.value = 2.5;
  panel.thickness_m.value = 0.3;
  panel.frame.origin = {10.0, 20.0, 1.0};
  panel.frame.x_axis = {0.0, 1.0, 0.0};
  panel.frame.y_axis = {-1.0, 0.0, 0.0};
  const Box3 box = panel.world_bounds();
  CHECK(box.min.x == Approx(9.7));
  CHECK(box.max.x == Approx(10.0));
  CHECK(box.min.y == Approx(20.0));
  CHECK(box.max.y == Approx(23.0));
  CHECK(box.max.z == Approx(3.5));
}

TEST_CASE("a leaning panel's box in the world holds each of its corners") {
  Panel panel;
  panel.width_m.value = 2.0;
  panel.height_m.value = 3.0;
  panel.thickness_m.value = 0.5;
  // Turned about y by the angle of 3 and 4: its foot's far end is the lowest point, its head's far end the foremost.
  panel.frame.x_axis = {0.6, 0.0, -0.8};
  panel.frame.z_axis = {0.8, 0.0, 0.6};
  const Box3 box = panel.world_bounds();
  CHECK(box.min.x == Approx(0.0).margin(1e-12));
  CHECK(box.max.x == Approx(0.6 * 2.0 + 0.8 * 3.0));
  CHECK(box.min.y == Approx(0.0).margin(1e-12));
  CHECK(box.max.y == Approx(0.5));
  CHECK(box.min.z == Approx(-0.8 * 2.0));
  CHECK(box.max.z == Approx(0.6 * 3.0));
}
