// libFuzzer's entry: one program for all targets; the environment names the one to run.
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "tests/fuzz/targets.h"

namespace {

const panel_dossier::fuzz::Target* chosen = nullptr;

}  // namespace

extern "C" int LLVMFuzzerInitialize(int* /*argc*/, char*** /*argv*/) {
  const char* name = std::getenv("PANEL_DOSSIER_FUZZ");
  for (const auto& target : panel_dossier::fuzz::kTargets) {
    if (name != nullptr && target.name == name) chosen = &target;
  }
  if (chosen != nullptr) return 0;
  std::fputs("set PANEL_DOSSIER_FUZZ to one of:\n", stderr);
  for (const auto& target : panel_dossier::fuzz::kTargets) std::fprintf(stderr, "  %s\n", target.name.data());
  std::exit(64);
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  chosen->run({reinterpret_cast<const char*>(data), size});
  return 0;
}
