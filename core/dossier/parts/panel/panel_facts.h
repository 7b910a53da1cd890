// What a person asks of a panel first, in words: who made it, what it weighs, how it performs, where nothing may be
// drilled.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "core/dossier/dossier.h"

namespace panel_dossier {

struct Fact {
  std::string name;
  std::string value;         ///< empty where no source gives it
  std::string page_of = {};  ///< anchor whose page label stands behind the value; may be empty
};

/// Type, place, maker, serial number, batch, day of making, of inspection and of installation, warranty.
std::vector<Fact> identity_facts(const DossierContent& content, const Panel& panel);

/// Size, area, mass, hook load, centre of gravity, U-value, fire resistance, load-bearing in fire, air test: as the
/// disciplines found them.
std::vector<Fact> figure_facts(const DossierContent& content, const Panel& panel, const PanelSummary& summary);

/// Whether the export gives the fastener a place of its own, such as that of a lifting point or a bracket. A larger box
/// is that of many, such as the screws of a sheet.
bool has_place(const Part& part);

/// The fasteners and accessories of the panel by type, with the middles of those that have a place: `8 × Angle bracket
/// 120 x 120 x 5, adjustable, at 60, 915, 1770 and 2625 mm from the left edge, 60 and 3240 mm above the foot`.
std::vector<std::string> fixings_in_words(const Panel& panel);

/// Where the studs stand, what lies behind the inner face at which depth, and what every hole there has to keep.
std::vector<std::string> drilling_rules(const DossierContent& content, const Panel& panel, const PanelSummary& summary);

/// Period, first and last day, contact, exclusions; empty texts are not given.
std::array<std::string, 5> warranty_of(const Panel& panel);

/// A property as the pages print it: yes or no, years from one year on, else value and unit.
std::string property_text(const Property& property);

}  // namespace panel_dossier
