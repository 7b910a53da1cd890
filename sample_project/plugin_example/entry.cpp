// The plugin as the program loads it.
#include <filesystem>
#include <memory>
#include <string_view>
#include <vector>

#include "core/api/plugin.h"
#include "rating.h"
#include "reduction_index.h"

namespace sound {

using namespace panel_dossier;

class SoundRun final : public PluginRun {
 public:
  SoundRun(const Project& project, const Settings& settings, const std::vector<Band>& bands)
      : project_(project), settings_(settings), bands_(bands) {}

  CheckOutcome check_panel(const Panel& panel) const override {
    return {{reduction_index(panel, project_, settings_, bands_)}};
  }

  CheckOutcome check_project(const std::vector<PanelFindings>& /*panels*/) const override { return {}; }

  std::vector<OutputRow> panel_rows(std::string_view /*output*/, const PanelFindings& panel) const override {
    if (panel.findings.empty()) return {};  // the check could not be run on this panel
    const Finding& finding = panel.findings.front();
    const auto cell = [&](const char* id, const char* unit) -> Value {
      const auto value = find_value(finding, id, unit);
      return value ? Value(*value) : Value();
    };
    return {{panel.panel->mark, panel.panel->type, cell("surface_mass", "kg/m²"), cell("r_w", "dB"), cell("c", "dB"),
             cell("c_tr", "dB")}};
  }

 private:
  const Project& project_;
  const Settings& settings_;
  const std::vector<Band>& bands_;
};

class SoundPlugin final : public Plugin {
 public:
  explicit SoundPlugin(const std::filesystem::path& data_dir) : bands_(read_bands(data_dir / "reference_curve.csv")) {}

  const PluginInfo& info() const override { return info_; }
  const std::vector<CheckDeclaration>& checks() const override { return checks_; }

  std::unique_ptr<PluginRun> prepare(const Project& project, const Settings& settings) const override {
    return std::make_unique<SoundRun>(project, settings, bands_);
  }

 private:
  std::vector<Band> bands_;
  std::vector<CheckDeclaration> checks_{kReductionIndexCheck};
  PluginInfo info_{"sound",
                   "Airborne sound insulation",
                   "1.0.0",
                   {"EN ISO 717-1:2020"},
                   "An estimate by the mass law supports no claim; sound insulation is shown by measurement."};
};

}  // namespace sound

PANEL_DOSSIER_PLUGIN(sound::SoundPlugin, "sound");
