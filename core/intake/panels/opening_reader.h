// Openings of a panel and what fills them.
#pragma once

#include <string>
#include <vector>

#include "core/api/model/panel.h"
#include "core/intake/panels/panel_finder.h"
#include "core/intake/panels/part_reader.h"

namespace panel_dossier {

struct PlacedOpening {
  Opening opening;
  Box3 bounds;  ///< in the frame asked for
  Element entity;
  bool goes_through = true;  ///< from face to face of what it voids
  /// Where it does not agree with what it voids or with what fills it; one text each, without what to do.
  std::vector<std::string> faults;
};

/// Openings in the panel itself, or else those in its parts, where one hole through several parts counts once.
/// `panel` has its frame and its size. Reports openings without a shape.
std::vector<PlacedOpening> read_openings(PanelReaders& readers, const PanelEntities& entities, const Panel& panel);

/// Warns of the faults of the openings, which become contradictions of the layers, and takes out what is neither filled
/// nor goes through: a recess takes nothing off the area.
void weigh_openings(const ReadContext& context, std::vector<PlacedOpening>& openings, Panel& panel);

/// Warns of openings that void nothing, with what fills them: they count for no panel.
void check_stray_openings(const ReadContext& context);

/// The holes that the profile of the panel's own body has from face to face, where it is drawn with them instead of
/// openings of their own. `body` stands in the panel's frame.
std::vector<PlacedOpening> holes_of_body(const ReadContext& context, const Element& panel, const Shape& body);

/// Warns of a panel whose body leaves out more of its rectangle than its openings: areas then count too much. `body`
/// stands in the panel's frame; size and openings of the panel are set.
void check_face(const ReadContext& context, const Element& entity, const Shape& body, const Panel& panel);

/// Boxes of the openings in one part.
std::vector<Box3> voids_of_part(PanelReaders& readers, const Element& part, const Frame& frame);

/// Reports openings outside the panel and openings that overlap. The panel's mark and size are set.
void check_openings(const ReadContext& context, const Panel& panel, const std::vector<PlacedOpening>& openings);

}  // namespace panel_dossier
