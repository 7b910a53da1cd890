#include "core/cli/build/nights/clock.h"

#include <array>
#include <ctime>

namespace panel_dossier {

std::string time_now_utc() {
  const std::time_t now = std::time(nullptr);
  std::tm parts{};
  gmtime_r(&now, &parts);
  std::array<char, 32> text{};
  std::strftime(text.data(), text.size(), "%Y-%m-%dT%H:%M:%SZ", &parts);
  return text.data();
}

}  // namespace panel_dossier
