// Some of the properties of an export, by name.
#pragma once

#include <algorithm>
#include <functional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/finding/check_declaration.h"

namespace panel_dossier {

/// The properties that checks declare to read, under their full names `Pset.Property`. Thread-safe once made.
class PropertyNames {
 public:
  /// Of the inputs of each check.
  explicit PropertyNames(const std::vector<CheckDeclaration>& checks) {
    for (const CheckDeclaration& check : checks) {
      for (const CheckInput& input : check.inputs) {
        if (input.source == CheckInput::Source::property) add(input.name);
      }
    }
  }

  /// As a declaration has it, `*` included.
  void add(const std::string& name) {
    if (name.find('*') == std::string::npos) {
      names_.insert(name);
    } else {
      patterns_.push_back(name);
    }
  }

  bool holds(std::string_view name) const {
    return names_.find(name) != names_.end() ||
           std::any_of(patterns_.begin(), patterns_.end(),
                       [name](const std::string& pattern) { return names_input(pattern, name); });
  }

 private:
  std::set<std::string, std::less<>> names_;
  std::vector<std::string> patterns_;
};

}  // namespace panel_dossier
