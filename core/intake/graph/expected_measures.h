// Which measure type each known property has: schemas/model_properties.csv and the lists of the plugins.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/intake/document/reporter.h"
#include "core/intake/graph/measures.h"
#include "core/intake/graph/property_list.h"

namespace panel_dossier {

/// A number whose type says another unit than the list, or none at all, must not be taken for the SI value that the
/// checks expect.
class ExpectedMeasures {
 public:
  /// Reports as an error, with its file and line, what is wrong with a list: see `read_property_lists`, and a type that
  /// is no measure.
  ExpectedMeasures(const std::vector<PropertyListText>& lists, Reporter& report);

  /// The type that the list gives for the property, with its unit, when `found` cannot stand for it; none when it can
  /// or when the list does not know the property.
  std::optional<std::string> breach(const std::string& set, const std::string& property, const Measure& found) const;

 private:
  struct Expected {
    const Measure* measure;
    std::string unit;  ///< of a plain number, else empty
  };

  std::map<std::pair<std::string, std::string>, Expected> rows_;
};

}  // namespace panel_dossier
