#include "core/cli/build/store/stored_results.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstddef>
#include <exception>
#include <map>
#include <stdexcept>
#include <utility>

#include "core/api/support/words.h"

namespace panel_dossier {

void add_store_options(CLI::App& command, StoreOptions& options) {
  const auto group = "Results of earlier builds";
  const auto store = command.add_option("--store", options.file,
                                        "File that keeps results, so that what follows from the same inputs is not "
                                        "computed again; several projects may share one (default: OUT.store)");
  store->group(group);
  const auto none = command.add_flag("--no-store", options.none, "Compute everything and keep nothing");
  none->group(group)->excludes(store);
  command
      .add_option_function<std::string>(
          "--explain", [&options](const std::string& mark) { options.explain_panel = mark; },
          "Say of each result why it was computed, or of the panel of this mark alone")
      ->type_name("MARK")
      ->expected(0, 1)
      ->default_str("")
      ->group(group)
      ->excludes(none);
}

std::filesystem::path store_file(const StoreOptions& options, const std::filesystem::path& out) {
  if (!options.file.empty()) return options.file;
  const std::filesystem::path target = (std::filesystem::absolute(out) / "").lexically_normal().parent_path();
  return target.string() + ".store";
}

std::unique_ptr<ResultStore> open_store(const StoreOptions& options, const std::filesystem::path& out,
                                        std::vector<std::string>& warnings) {
  if (options.none) return nullptr;
  try {
    auto store = std::make_unique<ResultStore>(store_file(options, out));
    for (std::string& warning : store->take_warnings()) warnings.push_back(std::move(warning));
    return store;
  } catch (const std::runtime_error& error) {
    if (!options.file.empty()) throw;
    warnings.emplace_back(error.what());
    return nullptr;
  }
}

Digest digest_of_files(const Inputs& inputs) {
  std::string all;
  for (const SettingsFile& file : inputs.settings_files) {
    all += file.location + '\0' + to_hex(sha256(file.bytes)) + '\n';
  }
  return sha256(all);
}

std::string store_use_in_words(const Results& results) {
  const auto on_panels =
      static_cast<std::size_t>(std::count_if(results.computed.begin(), results.computed.end(),
                                             [](const Computed& computed) { return computed.panel.has_value(); }));
  const std::size_t on_project = results.computed.size() - on_panels;
  const auto counted = [](std::size_t reused, std::size_t computed) {
    return std::to_string(reused) + " from the store, " + std::to_string(computed) + " computed";
  };
  std::string words =
      std::to_string(results.reused + on_panels) + " results of panels: " + counted(results.reused, on_panels);
  if (results.reused_of_project + on_project > 0) {
    words += "; of the project: " + counted(results.reused_of_project, on_project);
  }
  return words;
}

std::vector<std::string> explanation(const Project& project, const Results& results, const std::string& mark) {
  const bool is_known = mark.empty() || std::any_of(project.panels.begin(), project.panels.end(),
                                                    [&](const Panel& panel) { return panel.mark == mark; });
  if (!is_known) throw std::runtime_error("--explain: no panel has the mark '" + mark + "'");
  std::map<std::pair<std::string, std::string>, std::vector<std::string>> marks;  // by plugin and cause
  std::vector<std::string> lines;
  const auto tell = [&lines](const std::string& plugin, const std::string& whose, const std::string& why) {
    const std::string what = why.empty() ? "nothing new, but the store no longer held it" : why;
    lines.push_back(joined({plugin, "computed for " + whose, what}, ": "));
  };
  for (const Computed& computed : results.computed) {
    if (!computed.panel) continue;
    const std::string& own = project.panels.at(*computed.panel).mark;
    if (mark.empty() || own == mark) marks[{computed.plugin, computed.why}].push_back(own);
  }
  for (const auto& [cause, panels] : marks) {
    tell(cause.first, panels.size() == project.panels.size() ? "all panels" : joined(panels, ", "), cause.second);
  }
  for (const Computed& computed : results.computed) {
    if (!computed.panel && mark.empty()) tell(computed.plugin, "the project", computed.why);
  }
  if (lines.empty()) lines.emplace_back("nothing was computed: all results came from the store");
  return lines;
}

}  // namespace panel_dossier
