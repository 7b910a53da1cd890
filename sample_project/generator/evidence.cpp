#include "sample_project/generator/evidence.h"

namespace sample_export {

// FT-103 is named on purpose without its file: the report of the feature panel has not come in yet.
const std::vector<EvidenceDocument>& evidence_documents() {
  static const std::vector<EvidenceDocument> table = {
      {"FT-101", "Fire resistance test report, infill cassette", "evidence/FT-101-infill-fire-test.txt"},
      {"FT-102", "Fire resistance test report, oversail cassette", "evidence/FT-102-oversail-fire-test.txt"},
      {"FT-103", "Fire resistance test report, feature panel", "evidence/FT-103-feature-panel-fire-test.txt"},
      {"FT-104", "Fire resistance test report, load-bearing cassette", "evidence/FT-104-load-bearing-fire-test.txt"},
      {"RF-201", "Reaction to fire classification report", "evidence/RF-201-reaction-to-fire.txt"},
      {"EPD-301", "Environmental declaration, structural softwood", "evidence/EPD-301-softwood.xml"},
      {"EPD-302", "Environmental declaration, glued laminated timber", "evidence/EPD-302-glulam.csv"},
      {"EPD-303", "Environmental declaration, oriented strand board", "evidence/EPD-303-osb.csv"},
      {"EPD-304", "Environmental declaration, gypsum plasterboard", "evidence/EPD-304-gypsum-plasterboard.csv"},
      {"EPD-305", "Environmental declaration, stone wool", "evidence/EPD-305-stone-wool.csv"},
      {"EPD-306", "Environmental declaration, vapour control layer", "evidence/EPD-306-vapour-control.csv"},
      {"EPD-307", "Environmental declaration, fibre cement", "evidence/EPD-307-fibre-cement.txt"},
      {"EPD-308", "Environmental declaration, steel fixings", "evidence/EPD-308-steel-fixings.csv"},
      {"EPD-309", "Environmental declaration, gypsum sheathing board", "evidence/EPD-309-gypsum-sheathing.csv"},
      {"EPD-310", "Environmental declaration, breather membrane", "evidence/EPD-310-breather-membrane.csv"},
      {"COC-401", "Chain of custody certificate", "evidence/COC-401-chain-of-custody.txt"},
      {"AIR-501", "Air permeability test report", "evidence/AIR-501-air-permeability.txt"},
      {"FPC-601", "Factory production control certificate", "evidence/FPC-601-factory-production-control.txt"},
      {"LIF-701", "Lifting loop certificate", "evidence/LIF-701-lifting-loops.txt"}};
  return table;
}

}  // namespace sample_export
