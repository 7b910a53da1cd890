#include <fstream>
#include <stdexcept>
#include <string>

#include "core/api/testing/temporary_folder.h"
#include "core/seal/verify.h"
#include "tests/fuzz/schema_files.h"
#include "tests/fuzz/targets.h"

namespace panel_dossier::fuzz {

void verify_file(std::string_view bytes) {
  static const testing::TemporaryFolder folder;
  const auto file = folder.path() / "dossier.pdf";
  std::ofstream(file, std::ios::binary | std::ios::trunc) << bytes;
  try {
    verify_dossier(file, kSchemaDir);
  } catch (const std::runtime_error&) {
    return;  // the file cannot be read at all
  }
}

}  // namespace panel_dossier::fuzz
