// Every seed and every find of the fuzzers, once: no crash, and what the targets ask for.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "tests/fuzz/targets.h"

namespace {

namespace fs = std::filesystem;

std::vector<fs::path> files_in(const fs::path& folder) {
  std::vector<fs::path> files;
  if (!fs::exists(folder)) return files;
  for (const auto& file : fs::directory_iterator(folder)) {
    if (file.is_regular_file()) files.push_back(file.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

std::string read_all(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

}  // namespace

TEST_CASE("what the fuzzers started from and found does no harm") {
  const fs::path root = PANEL_DOSSIER_SOURCE_DIR "/tests/fuzz";
  for (const auto& target : panel_dossier::fuzz::kTargets) {
    const std::vector<fs::path> seeds = files_in(root / "seeds" / target.name);
    CHECK_FALSE(seeds.empty());
    for (const auto& files : {seeds, files_in(root / "finds" / target.name)}) {
      for (const fs::path& file : files) {
        INFO(file);
        CHECK_NOTHROW(target.run(read_all(file)));
      }
    }
  }
}

TEST_CASE("the targets take bytes of nothing and of noise") {
  std::string noise;
  for (unsigned i = 0; i < 2000; ++i) noise += static_cast<char>((i * 2654435761U) >> 11U);
  for (const auto& target : panel_dossier::fuzz::kTargets) {
    INFO(target.name);
    CHECK_NOTHROW(target.run({}));
    CHECK_NOTHROW(target.run(noise));
  }
}
