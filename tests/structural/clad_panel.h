// Adds cladding on battens to a panel of 2.4 m by 3.0 m.
#pragma once

#include <string>

#include "core/api/testing/cassette_panel.h"
#include "core/api/testing/properties.h"
#include "tests/structural/hoisted_panel.h"

namespace panel_dossier::testing {

inline Part cladding_screw(const char* name, const char* object_type, const Box3& bounds, int count) {
  Part screw = fastener_part(name, object_type, bounds, count);
  screw.properties.add("Panel_Fastener", "Spacing", property_of(0.4));
  screw.properties.add("Panel_Fastener", "ScrewHeadDiameter", property_of(0.012));
  return screw;
}

/// Two boards of 1.2 m on five upright battens over the studs. Screws of the boards with a declared withdrawal of
/// 1300 N and a pull-through of 15 N/mm², of the battens 6 mm with 60 mm of thread and 13 N/mm²; both every 0.4 m.
inline void clad(Panel& panel) {
  constexpr double kFace = 0.157;
  constexpr double kBattenDepth = 0.038;
  constexpr double kBoard = 0.008;
  const double height = panel.height_m.value;
  for (const double x : {0.0, 0.5775, 1.1775, 1.7775, 2.355}) {
    const Box3 box{{x, kFace, 0.0}, {x + 0.045, kFace + kBattenDepth, height}};
    panel.parts.push_back(
        box_part("Batten at " + std::to_string(static_cast<int>(x * 1000.0)), PartKind::batten, kTimber, box));
  }
  const double board = kFace + kBattenDepth;
  for (const double x : {0.0, 1.2}) {
    panel.parts.push_back(box_part("Board at " + std::to_string(static_cast<int>(x * 1000.0)), PartKind::cladding, kOsb,
                                   {{x, board, 0.0}, {x + 1.2, board + kBoard, height}}));
  }
  Part boards =
      cladding_screw("Cladding screws", "CLADDING_SCREW", {{0.0, board, 0.0}, {2.4, board + kBoard, height}}, 48);
  boards.properties.add("Panel_Fastener", "WithdrawalCapacity", property_of(1300.0));
  boards.properties.add("Panel_Fastener", "HeadPullThrough", property_of(15e6));
  panel.parts.push_back(std::move(boards));
  Part battens = cladding_screw("Batten screws", "batten screw", {{0.0, kFace, 0.0}, {2.4, board, height}}, 45);
  battens.properties.add("Panel_Fastener", "Diameter", property_of(0.006));
  battens.properties.add("Panel_Fastener", "ScrewPenetration", property_of(0.060));
  battens.properties.add("Panel_Fastener", "HeadPullThrough", property_of(13e6));
  panel.parts.push_back(std::move(battens));
}

}  // namespace panel_dossier::testing
