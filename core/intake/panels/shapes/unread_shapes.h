// What of the export's geometry is not read, counted by kind.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>

namespace panel_dossier {

/// Kinds as the message names them: the entity, with the reason where it is the single shape that cannot be read.
using UnreadShapes = std::map<std::string, std::size_t>;

inline void count_unread(UnreadShapes& unread, std::string_view entity, std::string_view reason = {}) {
  std::string kind(entity);
  if (!reason.empty()) kind += " (" + std::string(reason) + ")";
  ++unread[std::move(kind)];
}

}  // namespace panel_dossier
