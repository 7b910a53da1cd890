#include <catch2/catch.hpp>

#include "core/dossier/dossier.h"
#include "tests/dossier/synthetic_project.h"

using namespace panel_dossier;
using test::bytes_of;
using test::installed_fonts;
using test::output_of;
using test::synthetic_dossier;
using test::temporary_file;

namespace {

std::string written(const test::SyntheticDossier& made, const std::string& name) {
  const auto file = temporary_file(name);
  write_dossier(made.content(), installed_fonts(), file);
  return file.string();
}

std::string text_of(const std::string& file) {
  return output_of("pdftotext -layout '" + file + "' - 2>/dev/null");
}

}  // namespace

TEST_CASE("a dossier of a small project is sound PDF") {
  const std::string file = written(synthetic_dossier(12, 25), "small.pdf");
  CHECK(output_of("qpdf --check '" + file + "' 2>&1").find("No syntax or stream encoding errors") != std::string::npos);
}
