// What is looked up and opened of paths that came from outside.
#include "core/api/support/project_file.h"

#include <catch2/catch.hpp>
#include <filesystem>
#include <string>

#include "core/api/testing/temporary_folder.h"

using namespace panel_dossier;
namespace fs = std::filesystem;

TEST_CASE("a path is followed inside its folder alone, links resolved") {
  const testing::TemporaryFolder root;
  const fs::path folder = root.path() / "project";
  root.write("project/evidence/report.txt", "report");
  root.write("outside.txt", "secret");
  fs::create_symlink(root.path() / "outside.txt", folder / "evidence/link.txt");
  fs::create_symlink(folder / "evidence/report.txt", folder / "inner.txt");
  const auto status = [&](const std::string& location) { return find_evidence_file(folder, location); };
  CHECK(status("evidence/report.txt") == EvidenceStatus::present);
  CHECK(status("evidence/../evidence/report.txt") == EvidenceStatus::present);
  CHECK(status("inner.txt") == EvidenceStatus::present);
  CHECK(status("evidence/none.txt") == EvidenceStatus::missing);
  CHECK(status("evidence") == EvidenceStatus::missing);
  for (const std::string& location :
       {std::string("../outside.txt"), std::string("../no-such-file.txt"), std::string("evidence/link.txt"),
        (root.path() / "outside.txt").string(), std::string("https://example.invalid/report.txt"),
        std::string("C:/report.txt"), std::string("\\\\server\\report.txt"), std::string("."), std::string(),
        std::string("evidence/report.txt\0.pdf", 24)}) {
    INFO(location);
    CHECK(status(location) == EvidenceStatus::refused);
  }
  CHECK(find_evidence_file(root.path() / "no-such-folder", "report.txt") == EvidenceStatus::missing);
}

TEST_CASE("a file is loaded up to one byte more than the limit") {
  const testing::TemporaryFolder folder;
  const fs::path file = folder.write("a.txt", "12345");
  CHECK(load_at_most(file, 5) == "12345");
  CHECK(load_at_most(file, 9) == "12345");
  CHECK(load_at_most(file, 3) == "1234");
  CHECK_FALSE(load_at_most(folder.path() / "none.txt", 5));
}
