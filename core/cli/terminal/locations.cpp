#include "core/cli/terminal/locations.h"

#include <stdexcept>
#include <string>

namespace panel_dossier {

namespace {

/// Folder that holds `bin/`.
std::filesystem::path prefix() {
  return std::filesystem::canonical("/proc/self/exe").parent_path().parent_path();
}

std::filesystem::path shared_dir(const char* name, const char* in_source_tree) {
  std::filesystem::path installed = prefix() / "share" / "panel-dossier" / name;
  return std::filesystem::is_directory(installed) ? installed : std::filesystem::path(in_source_tree);
}

std::filesystem::path face(const std::filesystem::path& folder, const char* family, const char* name,
                           const std::string& package) {
  for (const std::filesystem::path& file : {folder / name, folder / family / name}) {
    if (std::filesystem::is_regular_file(file)) return file;
  }
  throw std::runtime_error("font '" + (folder / family / name).string() + "' not found; install the package " +
                           package + " or give its folder with --fonts");
}

}  // namespace

std::filesystem::path default_plugin_dir() {
  const auto installed = prefix() / PANEL_DOSSIER_LIBDIR / "panel-dossier" / "plugins";
  return std::filesystem::is_directory(installed) ? installed : prefix() / "plugins";
}

std::filesystem::path default_schema_dir() {
  return shared_dir("schemas", PANEL_DOSSIER_SCHEMA_DIR);
}

std::filesystem::path default_scaffold_dir() {
  return shared_dir("scaffold", PANEL_DOSSIER_SCAFFOLD_DIR);
}

std::filesystem::path default_guidance_dir() {
  return shared_dir("guidance", PANEL_DOSSIER_GUIDANCE_DIR);
}

DossierFonts fonts_in(const std::filesystem::path& folder) {
  const auto lato = [&folder](const char* name) { return face(folder, "lato", name, "fonts-lato"); };
  return {lato("Lato-Regular.ttf"), lato("Lato-Bold.ttf"), lato("Lato-Italic.ttf"),
          face(folder, "dejavu", "DejaVuSansCondensed.ttf", "fonts-dejavu-extra")};
}

}  // namespace panel_dossier
