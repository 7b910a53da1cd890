// The slab of a detail against the slabs of the export.
#include "plugins/thermal/junctions/slab_claims.h"

#include <catch2/catch.hpp>

#include "core/api/testing/panels.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;
using namespace panel_dossier::thermal;

namespace {

/// A detail drawn up for a slab of 0.275 m and a roof of 0.3 m.
conduction::Detail detail_of_slabs() {
  conduction::Detail detail;
  Origin slab;
  slab.kind = OriginKind::setting;
  slab.key = "thermal.details.slab_thickness_m";
  Origin roof = slab;
  roof.key = "thermal.details.roof_slab_thickness_m";
  detail.inputs = {{"thickness of the slab", "d", 0.275, "m", slab},
                   {"thickness of the roof slab", "d", 0.3, "m", roof}};
  return detail;
}

panel_dossier::Neighbour plate(NeighbourKind kind, double thickness_m, double z_m) {
  panel_dossier::Neighbour neighbour;
  neighbour.kind = kind;
  neighbour.name = "Plate";
  neighbour.bounds = Box3{{0.0, -5.0, z_m - thickness_m}, {6.0, -0.02, z_m}};
  neighbour.thickness_m = Sourced<double>{thickness_m, {}};
  return neighbour;
}

std::vector<std::string> contradictions(const panel_dossier::Neighbour& neighbour) {
  Project project;
  project.neighbours = {neighbour};
  Panel panel = plain_panel(3.0, 3.0);
  panel.thickness_m.value = 0.3;
  return slab_contradictions(detail_of_slabs(), panel, project);
}

}  // namespace

TEST_CASE("A slab beside the panel that is thicker than the settings say is a contradiction") {
  CHECK(contradictions(plate(NeighbourKind::slab, 0.275, 0.0)).empty());
  CHECK(contradictions(plate(NeighbourKind::slab, 0.37, 0.0)).empty());  // with its screed
  CHECK(
      contradictions(plate(NeighbourKind::slab, 0.4, 0.0)) ==
      std::vector<std::string>{"setting 'thermal.details.slab_thickness_m' is 0.275 m, but slab 'Plate' of the export "
                               "beside the panel is 0.400 m thick; correct one of them"});
  CHECK(contradictions(plate(NeighbourKind::roof, 0.15, 3.2)).size() == 1);
}

TEST_CASE("Slabs elsewhere and things of another kind contradict no detail") {
  CHECK(contradictions(plate(NeighbourKind::slab, 0.5, 9.0)).empty());
  CHECK(contradictions(plate(NeighbourKind::wall, 0.5, 0.0)).empty());
  panel_dossier::Neighbour far = plate(NeighbourKind::slab, 0.5, 0.0);
  far.bounds->max.y = -1.0;
  CHECK(contradictions(far).empty());
  panel_dossier::Neighbour unknown = plate(NeighbourKind::slab, 0.5, 0.0);
  unknown.thickness_m.reset();
  CHECK(contradictions(unknown).empty());
}

TEST_CASE("A slab differs from the settings by more than 100 mm, and lies within half a metre of the panel") {
  CHECK(contradictions(plate(NeighbourKind::slab, 0.374, 0.0)).empty());
  CHECK(contradictions(plate(NeighbourKind::slab, 0.377, 0.0)).size() == 1);
  CHECK(contradictions(plate(NeighbourKind::slab, 0.176, 0.0)).empty());
  CHECK(contradictions(plate(NeighbourKind::slab, 0.173, 0.0)).size() == 1);
  panel_dossier::Neighbour set_back = plate(NeighbourKind::slab, 0.5, 0.0);
  set_back.bounds->max.y = -0.49;
  CHECK(contradictions(set_back).size() == 1);
  set_back.bounds->max.y = -0.51;
  CHECK(contradictions(set_back).empty());
  CHECK(contradictions(plate(NeighbourKind::slab, 0.5, 3.98)).size() == 1);  // hangs down to 3.48 m
  CHECK(contradictions(plate(NeighbourKind::slab, 0.5, 4.02)).empty());
  CHECK(contradictions(plate(NeighbourKind::slab, 0.5, -0.49)).size() == 1);
  CHECK(contradictions(plate(NeighbourKind::slab, 0.5, -0.51)).empty());
}
