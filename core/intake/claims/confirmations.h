// Values that somebody confirms by name although they are unusual or another source says otherwise.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/settings.h"
#include "core/intake/document/diagnostics.h"

namespace panel_dossier {

/// The list `confirmed_values` of the settings. Belongs to one reading of the inputs.
class Confirmations {
 public:
  /// Entries are as the settings' schema demands; one without name or reason confirms nothing.
  explicit Confirmations(const Settings& settings);

  /// Whether the value of the property or setting `name` is confirmed: `of` is the material, part, panel or file that
  /// holds it, empty for a setting. A number must be the confirmed one, so that a later change asks again. `although`
  /// is what another source says of the thing; empty where none does.
  bool confirm(std::string_view name, std::string_view of, double value, std::string_view although = {});

  /// `NAME of OF: VALUE, although ANOTHER SOURCE SAYS, confirmed by BY: REASON` for each entry that a value was found
  /// for; a reader must see what was let through, and in place of what.
  std::vector<std::string> used() const;

  /// A warning for each entry that no value was asked for: it has a misspelt name or speaks of a value that is gone.
  Diagnostics unused(const std::string& settings_file) const;

 private:
  struct Entry {
    std::string key;   ///< `confirmed_values.0`
    std::string name;  ///< `Pset.Property`, or the key of a setting
    std::string of;    ///< empty: wherever the value stands
    double value = 0.0;
    std::string reason;
    std::string by;  ///< role; may be empty
    bool used = false;
    std::string although;  ///< what another source says of the value
  };
  std::vector<Entry> entries_;
};

}  // namespace panel_dossier
