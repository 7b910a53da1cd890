// Which panel a row of records speaks of: by mark, serial number or GlobalId.
#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/api/model/project.h"

namespace panel_dossier {

/// What a row names, as it stands there; each may be empty.
struct PanelKeys {
  std::string mark;
  std::string serial;
  std::string global_id;

  bool any() const { return !mark.empty() || !serial.empty() || !global_id.empty(); }
  /// `mark 'N1-09', serial number '2026-1004'`.
  std::string words() const;
};

/// The panel that keys name, or why none can be told.
struct NamedPanel {
  std::optional<std::size_t> panel;  ///< index into Project::panels
  /// Keys that do not belong together, or a serial number of several panels; empty where the keys are merely unknown.
  std::string fault;
};

/// Immutable; the project may change as long as its panels keep their order.
class PanelIndex {
 public:
  explicit PanelIndex(const Project& project);

  /// A serial number that the export does not have is no fault beside another key of a panel without one.
  NamedPanel find(const PanelKeys& keys) const;

 private:
  std::map<std::string, std::size_t> marks_;
  std::map<std::string, std::size_t> serials_;
  std::map<std::string, std::size_t> global_ids_;
  std::set<std::string> shared_serials_;
  std::vector<std::string> mark_of_;  ///< by index of the panel
  std::vector<bool> has_serial_;      ///< likewise
};

}  // namespace panel_dossier
