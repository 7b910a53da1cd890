// One panel of the export -> Panel in its own frame.
#pragma once

#include <optional>

#include "core/api/model/panel.h"
#include "core/intake/declarations.h"
#include "core/intake/export_reader.h"
#include "core/intake/panels/material_reader.h"
#include "core/intake/panels/opening_reader.h"
#include "core/intake/panels/panel_finder.h"
#include "core/intake/panels/panel_size.h"
#include "core/intake/panels/part_reader.h"
#include "core/intake/read_context.h"

namespace panel_dossier {

/// The layers of a panel and how they bring it into the order from inside to outside.
struct BuildUp {
  std::optional<LayerSet> set;        ///< as the export orders it
  std::optional<LayerOrder> order;    ///< none when nobody says which face is outside
  bool outside_is_positive_y = true;  ///< in the upright frame of the placement; meaningful with `order`
  double total_m = 0.0;

  bool lies_along_x() const { return set && set->usage && set->usage->direction == LayerDirection::along_x; }
};

/// Belongs to one run on one thread.
///
/// Size of a panel: its own body where it has one, else everything its parts reach to (fasteners apart, and membranes
/// for the thickness only, since they stick out and lap), else Qto_WallBaseQuantities. What is made outranks what is
/// stated, so a stated size that differs is warned of and not used.
class PanelReader {
 public:
  PanelReader(PanelReaders& readers, const SpatialReader& spatial, const EvidenceReader& evidence,
              const MaterialReader& materials, std::optional<LayerOrder> default_layer_order)
      : readers_(readers),
        spatial_(spatial),
        evidence_(evidence),
        materials_(materials),
        default_layer_order_(default_layer_order) {}

  /// None when the panel has faults that leave nothing to read; they are reported.
  std::optional<Panel> read(const PanelEntities& entities);

 private:
  PanelReaders& readers_;
  const SpatialReader& spatial_;
  const EvidenceReader& evidence_;
  const MaterialReader& materials_;
  std::optional<LayerOrder> default_layer_order_;

  Panel read_identity(const PanelEntities& entities);
  std::vector<PlacedPart> read_parts(const PanelEntities& entities);
  /// Sets frame and size of the panel; none, reported, when nothing gives them. `body` is its own, in the world's
  /// frame.
  std::optional<OverallBox> place(const PanelEntities& entities, const Shape& body,
                                  const std::vector<PlacedPart>& parts, const BuildUp& build_up, Panel& panel);
  void check(const PanelEntities& entities, const std::vector<PlacedPart>& parts,
             const std::vector<PlacedOpening>& openings, const OverallBox& overall, const Panel& panel) const;
  std::vector<std::size_t> evidence_of(const PanelEntities& entities, const Panel& panel) const;
};

}  // namespace panel_dossier
