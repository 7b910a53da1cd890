// Which measure type each known property has: the list of schemas/properties.csv.
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "core/intake/document/reporter.h"
#include "core/intake/graph/measures.h"

namespace panel_dossier {

/// A number whose type says another unit than the list, or none at all, must not be taken for the SI value that the
/// checks expect.
class ExpectedMeasures {
 public:
  /// Reports `file`, and its line, as an error when it cannot be read or names a type that is no measure.
  ExpectedMeasures(const std::filesystem::path& file, Reporter& report);

  /// The type that the list gives for the property, with its unit, when `found` cannot stand for it; none when it can
  /// or when the list does not know the property.
  std::optional<std::string> breach(const std::string& set, const std::string& property, const Measure& found) const;

 private:
  struct Expected {
    const Measure* measure;
    std::string unit;  ///< of a plain number, else empty
  };

  void add_line(std::string_view line, const std::string& place, Reporter& report);

  std::map<std::pair<std::string, std::string>, Expected> rows_;
};

}  // namespace panel_dossier
