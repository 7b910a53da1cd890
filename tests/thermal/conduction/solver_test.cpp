// The conduction solver: bad models, plain walls with exact answers, several environments, refinement.
#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "plugins/thermal/conduction/multigrid.h"
#include "plugins/thermal/conduction/solve.h"

using namespace panel_dossier;
using namespace panel_dossier::thermal::conduction;

namespace {

/// 1 m of wall, 0.1 m of λ 0.1 inside and 0.2 m of λ 2 outside; R = 0.13 + 1 + 0.1 + 0.04 = 1.27 m²·K/W.
Model plain_wall() {
  Model model;
  model.solids = {{box_2d(0.0, 0.0, 0.1, 1.0), 0.1, "inner", Hatch::none},
                  {box_2d(0.1, 0.0, 0.3, 1.0), 2.0, "outer", Hatch::none}};
  model.environments = {{"room", 20.0}, {"outside", 0.0}};
  model.environment_boxes = {{0, box_2d(-1.0, 0.0, 0.0, 1.0), 0.13}, {1, box_2d(0.3, 0.0, 1.0, 1.0), 0.04}};
  return model;
}

/// Corner of three rooms: an L of wall with a partition, all of λ 0.5.
Model three_rooms() {
  Model model;
  model.solids = {{box_2d(0.0, 0.0, 2.0, 0.3), 0.5, "outer wall", Hatch::none},
                  {box_2d(0.9, 0.3, 1.1, 1.3), 0.5, "partition", Hatch::none}};
  model.environments = {{"left", 20.0}, {"right", 12.0}, {"outside", -5.0}};
  model.environment_boxes = {{0, box_2d(0.0, 0.3, 0.9, 1.3), 0.13},
                             {1, box_2d(1.1, 0.3, 2.0, 1.3), 0.13},
                             {2, box_2d(0.0, -1.0, 2.0, 0.0), 0.04}};
  return model;
}

struct BadModel {
  const char* label;
  std::function<void(Model&)> spoil;
  const char* message;
};

}  // namespace

TEST_CASE("An unsound model is refused with what is wrong") {
  const BadModel cases[] = {
      {"no solid", [](Model& m) { m.solids.clear(); }, "the model has no solid"},
      {"no environment", [](Model& m) { m.environment_boxes.clear(); }, "the model has no environment"},
      {"no conductivity", [](Model& m) { m.solids[0].conductivity_w_per_mk = 0.0; },
       "solid 'inner' has a thermal conductivity that is not above 0"},
      {"conductivity is not a number", [](Model& m) { m.solids[1].conductivity_w_per_mk = std::nan(""); },
       "solid 'outer' has a thermal conductivity that is not above 0"},
      {"no size", [](Model& m) { m.solids[0].box.max.x = 0.0; }, "solid 'inner' has no size"},
      {"coordinate is not a number", [](Model& m) { m.solids[0].box.max.x = std::nan(""); },
       "solid 'inner' has a coordinate that is not a number"},
      {"wrong depth", [](Model& m) { m.solids[0].box.max.z = 2.0; },
       "solid 'inner' of a two-dimensional model does not span z from 0 to 1 m"},
      {"overlap", [](Model& m) { m.environment_boxes[1].box.min.x = -0.5; },
       "boxes of the environments 'room' and 'outside' overlap"},
      {"bad surface resistance", [](Model& m) { m.environment_boxes[0].surface_resistance_m2k_per_w = -0.1; },
       "a box of environment 'room' has a surface resistance below 0"},
      {"unknown environment", [](Model& m) { m.environment_boxes[0].environment = 2; },
       "a box names an environment that is not there"},
      {"temperature is not a number", [](Model& m) { m.environments[1].temperature_c = std::nan(""); },
       "environment 'outside' has a temperature that is not a number"},
      {"one temperature", [](Model& m) { m.environments[1].temperature_c = 20.0; },
       "all environments have the same temperature, so no heat flows"},
      {"loose solid",
       [](Model& m) {
         m.solids.push_back({box_2d(2.0, 0.0, 2.1, 1.0), 1.0, "loose", Hatch::none});
       },
       "a part of solid 'loose' has no contact with any environment"},
      {"solid cut away",
       [](Model& m) {
         m.environment_boxes = {{0, box_2d(-1.0, -1.0, 1.0, 2.0), 0.13}};
       },
       "the environments leave no solid in the model"},
  };
  for (const BadModel& bad : cases) {
    INFO(bad.label);
    Model model = plain_wall();
    bad.spoil(model);
    CHECK_THROWS_WITH(solve(model), bad.message);
  }
}

TEST_CASE("A plain wall has the heat flow and temperatures of resistances in series on any grid") {
  const Solution solution = solve(plain_wall());
  CHECK(solution.accurate);
  CHECK(solution.heat_flows_w[0] == Approx(20.0 / 1.27).epsilon(1e-7));
  CHECK(solution.coupling_w_per_k[0][1] == Approx(1.0 / 1.27).epsilon(1e-7));
  CHECK(solution.field.temperature_c({0.1, 0.4, 0.5}).value() == Approx(20.0 - 20.0 / 1.27 * 1.13).margin(1e-6));
  CHECK(solution.field.temperature_c({0.05, 0.4, 0.5}).value() == Approx(20.0 - 20.0 / 1.27 * 0.63).margin(1e-6));
  CHECK(solution.surfaces[0]->lowest_c == Approx(20.0 - 20.0 / 1.27 * 0.13).margin(1e-6));
  CHECK(temperature_factor(solution, 0, 1).value() == Approx(1.0 - 0.13 / 1.27).margin(1e-7));
  CHECK_FALSE(solution.field.temperature_c({-0.1, 0.4, 0.5}).has_value());
}

TEST_CASE("A later solid overrides an earlier one and an environment cuts a void") {
  Model model = plain_wall();
  model.solids.push_back({box_2d(0.0, 0.0, 0.1, 1.0), 0.2, "overriding", Hatch::none});
  CHECK(solve(model).coupling_w_per_k[0][1] == Approx(1.0 / (0.13 + 0.5 + 0.1 + 0.04)).epsilon(1e-7));
  model.environment_boxes[0].box.max.x = 0.05;
  CHECK(solve(model).coupling_w_per_k[0][1] == Approx(1.0 / (0.13 + 0.25 + 0.1 + 0.04)).epsilon(1e-7));
}

TEST_CASE("Coupling coefficients of three environments are symmetric and give the heat flows by superposition") {
  const Solution solution = solve(three_rooms());
  REQUIRE(solution.accurate);
  const auto& coupling = solution.coupling_w_per_k;
  const double air_c[] = {20.0, 12.0, -5.0};
  for (std::size_t i = 0; i < 3; ++i) {
    double flow_w = 0.0;
    for (std::size_t j = 0; j < 3; ++j) {
      CHECK(coupling[i][j] == coupling[j][i]);
      flow_w += coupling[i][j] * (air_c[i] - air_c[j]);
    }
    CHECK(solution.heat_flows_w[i] == Approx(flow_w).epsilon(1e-6));
  }
  // The left and right rooms are mirror images.
  CHECK(coupling[0][2] == Approx(coupling[1][2]).epsilon(1e-6));
}

TEST_CASE("Refinement goes on until halving changes the heat flow by 1 % at most") {
  SolveOptions options;
  options.grid = {1.0, 1.0, 1.0};
  const Solution solution = solve(three_rooms(), options);
  CHECK(solution.accurate);
  REQUIRE(solution.grids.size() > 2);
  for (std::size_t i = 1; i < solution.grids.size(); ++i) {
    CHECK(solution.grids[i].cells == 4 * solution.grids[i - 1].cells);
    CHECK(solution.grids[i].imbalance < kHeatFlowImbalance);
  }
  const double last = solution.grids.back().heat_flow_w;
  const double before = solution.grids[solution.grids.size() - 2].heat_flow_w;
  CHECK(solution.heat_flow_change == Approx(std::abs(last - before) / last));
  CHECK(solution.heat_flow_change <= 0.01);
}

TEST_CASE("A result that runs out of cells before the rule holds says that it is not accurate") {
  SolveOptions options;
  options.grid = {1.0, 1.0, 1.0};
  options.most_cells = 50;
  CHECK_FALSE(solve(three_rooms(), options).accurate);
}

TEST_CASE("A two-dimensional model agrees with the same model in three dimensions") {
  Model solid = three_rooms();
  solid.two_dimensional = false;
  SolveOptions coarse;
  coarse.grid = {0.05, 1.5, 0.2};
  const Grid plane = make_grid(three_rooms(), coarse.grid);
  Grid block = plane;
  block.lines_m[2] = {0.0, 0.3, 1.0};
  const Solution flat = solve_on(three_rooms(), plane, 1e-10);
  const Solution deep = solve_on(solid, block, 1e-10);
  CHECK(deep.heat_flows_w[0] == Approx(flat.heat_flows_w[0]).epsilon(1e-8));
  CHECK(deep.surfaces[0]->lowest_c == Approx(flat.surfaces[0]->lowest_c).margin(1e-7));
}

TEST_CASE("The linear solver keeps its pace with contrasts of 1 to 10 000 and flat cells") {
  Model model = plain_wall();
  model.solids.push_back({box_2d(0.0, 0.5, 0.3, 0.5005), 230.0, "metal strip", Hatch::metal});
  model.solids.push_back({box_2d(0.02, 0.0, 0.021, 0.9), 230.0, "metal sheet", Hatch::metal});
  model.solids[0].conductivity_w_per_mk = 0.023;
  for (const double edge_cell_m : {0.002, 0.0005}) {
    const Solution solution = solve_on(model, make_grid(model, {edge_cell_m, 1.2, 0.05}), 1e-8);
    INFO("cells " << solution.grids[0].cells << ", iterations " << solution.grids[0].iterations);
    // Unpreconditioned conjugate gradients need thousands; 40 leaves room over the twenty or so that are usual.
    CHECK(solution.grids[0].iterations <= 40);
    CHECK(solution.grids[0].iterations > 0);
  }
}

TEST_CASE("Equal models have equal identities whatever their names") {
  Model renamed = plain_wall();
  renamed.solids[0].name = "another name";
  CHECK(identity(renamed) == identity(plain_wall()));
  renamed.solids[0].conductivity_w_per_mk = 0.1000001;
  CHECK(identity(renamed) != identity(plain_wall()));
}
