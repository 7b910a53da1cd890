#include "core/cli/forms/project_forms.h"

#include <algorithm>
#include <iostream>
#include <utility>

#include "core/cli/forms/settings_form.h"
#include "core/cli/forms/table_forms.h"
#include "core/cli/terminal/console_progress.h"

namespace panel_dossier {

ProjectGaps find_gaps(const Inputs& inputs, const std::vector<LoadedPlugin>& plugins, const InputOptions& options) {
  ProjectGaps found;
  Reporter report("the lists of properties");
  found.properties = read_property_lists(load_property_lists(property_lists(options), report), report);
  found.records = read_record_tables(options.schema_dir, found.properties);
  ConsoleProgress progress;
  const Project& project = *inputs.intake.project;
  const Results results = run_checks(project, inputs.settings, plugins, 0, progress);
  found.gaps = gaps_of(project, inputs.settings, results, found.properties);
  found.disciplines = discipline_states(results);
  return found;
}

namespace {

/// What no discipline can do without, of each material that lacks it: while settings are missing, the reasons of
/// findings do not come as far as materials.
void add_needs_of_materials(const Project& project, const std::vector<PropertyRow>& rows, std::vector<Gap>& gaps) {
  for (const PropertyRow& row : rows) {
    if (row.need != PropertyNeed::must || row.on != "material") continue;
    Gap needed;
    needed.name = row.set + "." + row.property;
    needed.property = &row;
    for (const Material& material : project.materials) {
      if (material.properties.find(row.set, row.property) == nullptr) needed.subjects.insert(material.name);
    }
    const auto known = std::find_if(gaps.begin(), gaps.end(), [&](const Gap& gap) { return gap.name == needed.name; });
    if (needed.subjects.empty()) continue;
    if (known == gaps.end()) {
      gaps.push_back(std::move(needed));
    } else {
      known->subjects.merge(needed.subjects);
    }
  }
}

}  // namespace

std::vector<PlannedFile> project_forms(const Project& project, const ProjectGaps& gaps, const InputOptions& options,
                                       const std::vector<LoadedPlugin>& plugins, const std::filesystem::path& folder,
                                       bool whole) {
  std::vector<std::string> disciplines;
  disciplines.reserve(plugins.size());
  for (const LoadedPlugin& plugin : plugins) disciplines.push_back(plugin.info.id);
  std::vector<Gap> of_library = gaps.gaps;
  if (whole) add_needs_of_materials(project, gaps.properties, of_library);
  const std::vector<TableForm> library = library_forms(project, of_library, gaps.records);
  std::vector<KnownSetting> known;
  if (whole) known = settings_of_export(project, disciplines);
  if (whole && !library.empty()) known.push_back({"library", "[\"library\"]", "the folder of these forms"});
  const SettingDescription settings = read_setting_description(settings_schema(options).text());
  std::vector<PlannedFile> files;
  files.push_back({folder / "settings.json", settings_form(settings, known, gaps.gaps, !whole), true});
  for (const TableForm& form : library) files.push_back({folder / form.file, form.text, true});
  for (const TableForm& form : record_forms(project, gaps.gaps, gaps.records, !whole)) {
    files.push_back({folder / form.file, form.text, true});
  }
  return files;
}

void write_forms(std::vector<PlannedFile> files) {
  // A link that leads nowhere is there too.
  const auto is_free = [](const PlannedFile& planned) {
    return !std::filesystem::exists(std::filesystem::symlink_status(planned.file));
  };
  const auto there = std::stable_partition(files.begin(), files.end(), is_free);
  const std::vector<PlannedFile> kept(there, files.end());
  files.erase(there, files.end());
  write_all_or_none(files);
  for (const PlannedFile& file : files) std::cout << "new:  " << file.file.string() << '\n';
  for (const PlannedFile& file : kept) std::cout << "kept: " << file.file.string() << " (it was there already)\n";
}

}  // namespace panel_dossier
