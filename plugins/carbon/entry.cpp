// The carbon plugin as the program loads it.
#include <filesystem>
#include <memory>
#include <string_view>
#include <vector>

#include "core/api/plugin.h"
#include "plugins/carbon/carbon_rows.h"
#include "plugins/carbon/checks.h"
#include "plugins/carbon/declarations/declared_material.h"
#include "plugins/carbon/run_inputs.h"

namespace panel_dossier::carbon {

class CarbonRun final : public PluginRun {
 public:
  CarbonRun(const Project& project, const Settings& settings, const Tables& tables)
      : inputs_(project, settings, tables, read_declaration_files(project, problems_)) {}

  CheckOutcome check_panel(const Panel& panel) const override { return carbon::check_panel(panel, inputs_); }

  CheckOutcome check_project(const std::vector<PanelFindings>& panels) const override {
    return carbon::check_project(inputs_, panels);
  }

  std::vector<OutputRow> panel_rows(std::string_view output, const PanelFindings& panel) const override {
    if (output != kCarbonOutput) return {};
    return carbon_rows(panel.panel->mark, panel.panel->type, panel.findings, inputs_.tables);
  }

  std::vector<OutputRow> project_rows(std::string_view output, const std::vector<Finding>& findings) const override {
    if (output != kCarbonOutput) return {};
    return carbon_rows("TOTAL", "", findings, inputs_.tables);
  }

  std::vector<InputProblem> problems() const override { return problems_; }

 private:
  std::vector<InputProblem> problems_;  // before the inputs, whose making fills it
  RunInputs inputs_;
};

class CarbonPlugin final : public Plugin {
 public:
  explicit CarbonPlugin(const std::filesystem::path& data_dir) : tables_(data_dir) {}

  const PluginInfo& info() const override { return info_; }
  const std::vector<CheckDeclaration>& checks() const override { return carbon::checks(); }

  std::unique_ptr<PluginRun> prepare(const Project& project, const Settings& settings) const override {
    return std::make_unique<CarbonRun>(project, settings, tables_);
  }

 private:
  Tables tables_;
  PluginInfo info_{
      "carbon",
      "Whole-life carbon",
      "0.1.0",
      {"EN 15978:2011", "EN 15804:2012+A2:2019", "EN 16449:2014"},
      "Declared values of the suppliers, not measurements; comparable only with accounts of the same scope."};
};

}  // namespace panel_dossier::carbon

PANEL_DOSSIER_PLUGIN(panel_dossier::carbon::CarbonPlugin, "carbon");
