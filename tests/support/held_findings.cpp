#include "tests/support/held_findings.h"

#include <algorithm>
#include <filesystem>
#include <map>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string_view>

#include "core/api/support/words.h"
#include "core/api/testing/check_cases.h"
#include "core/api/testing/tested_plugin.h"
#include "core/intake/document/file_bytes.h"
#include "core/pipeline/plugin_host.h"
#include "core/pipeline/run.h"
#include "tests/support/held_file.h"
#include "tests/support/sample_panels.h"

namespace panel_dossier::testing {

namespace {

/// The texts of all things, one a line.
template <typename Things, typename TextOf>
std::string lines_of(const Things& things, const TextOf& text_of) {
  std::string text;
  for (const auto& thing : things) text += text_of(thing) + "\n";
  return text;
}

std::string word_of(OriginKind kind) {
  if (kind == OriginKind::export_file) return "export";
  if (kind == OriginKind::data_table) return "data table";
  return kind == OriginKind::setting ? "setting" : "input table";
}

/// Lines of the export move with every part that is added to it; all else of an origin is held.
std::string text_of(const Origin& origin) {
  return held_line({word_of(origin.kind), origin.entity, origin.global_id, origin.property, origin.table, origin.row,
                    origin.source, origin.key});
}

std::string text_of(const Input& input) {
  return held_line({input.name, input.symbol, held_value(input.value), input.unit, text_of(input.origin)});
}

std::string text_of(const Step& step) {
  return held_line({step.name, step.symbol, held_value(step.value), step.unit, step.formula});
}

std::string text_of(const NamedValue& value) {
  return held_line({value.id, held_value(value.value), value.unit});
}

std::string row_text(const std::vector<Value>& row) {
  std::vector<std::string> cells;
  for (const Value& cell : row) cells.push_back(held_value(cell));
  return held_line(cells);
}

std::string text_of(const Table& table) {
  return "table " + held_line({table.id, table.title}) + "\n" +
         lines_of(table.columns,
                  [](const Column& column) {
                    return held_line({column.name, column.unit});
                  }) +
         lines_of(table.rows, row_text);
}

std::string text_of(const Vec2& point) {
  return held_number(point.x) + " " + held_number(point.y);
}

std::string text_of(const Polygon& points) {
  return lines_of(points, [](const Vec2& point) { return text_of(point); });
}

std::string text_of(const Series& series) {
  return "series " + held_line({series.title, series.x_label, series.x_unit, series.y_label, series.y_unit}) + "\n" +
         lines_of(series.curves, [](const Curve& curve) { return curve.name + "\n" + text_of(curve.points); });
}

std::string text_of(const BarChart& chart) {
  const auto piece_text = [](const BarPiece& piece) {
    return held_line({std::to_string(piece.part), held_number(piece.from), held_number(piece.to)});
  };
  return "bars " + held_line({chart.title, chart.axis_label, chart.axis_unit, joined(chart.parts)}) + "\n" +
         lines_of(chart.bars, [&](const Bar& bar) { return bar.name + "\n" + lines_of(bar.pieces, piece_text); });
}

std::string style_text(LineStyle style) {
  return std::to_string(static_cast<int>(style));
}

std::string text_of(const DrawnPolygon& polygon) {
  return "polygon " +
         held_line({std::to_string(static_cast<int>(polygon.hatch)), style_text(polygon.style), polygon.label,
                    std::to_string(polygon.tint)}) +
         "\n" + text_of(polygon.outline);
}

std::string text_of(const DrawnLine& line) {
  return "line " + held_line({text_of(line.from), text_of(line.to), style_text(line.style)});
}

std::string text_of(const DrawnDimension& dimension) {
  return "dimension " +
         held_line({text_of(dimension.from), text_of(dimension.to), held_number(dimension.offset), dimension.text});
}

std::string text_of(const DrawnText& text) {
  return "text " + held_line({text_of(text.at), text.text});
}

std::string text_of(const Drawing& drawing) {
  const auto text = [](const auto& drawn) { return text_of(drawn); };
  return "drawing " + drawing.title + "\n" + lines_of(drawing.polygons, text) + lines_of(drawing.lines, text) +
         lines_of(drawing.dimensions, text) + lines_of(drawing.texts, text);
}

std::string words_of(const Finding& finding) {
  return held_line({finding.title, finding.clause, std::string(to_string(finding.basis)),
                    std::string(to_string(finding.relation)), std::to_string(finding.decimals)}) +
         "\n" + finding.reason + "\n" + lines_of(finding.notes, [](const std::string& note) { return note; });
}

const std::vector<std::string> kPlain{"verdict", "value", "unit", "limit", "utilisation"};
const std::vector<std::string> kDigests{"words", "inputs", "steps", "values", "tables", "charts", "drawings"};

using Texts = std::vector<std::string>;

Texts texts_of(const Finding& finding) {
  const auto text = [](const auto& thing) { return text_of(thing); };
  return {std::string(to_string(finding.verdict)),
          held_value(finding.value),
          finding.unit,
          held_value(finding.limit),
          finding.utilisation ? held_number(*finding.utilisation) : std::string(),
          words_of(finding),
          lines_of(finding.inputs, text),
          lines_of(finding.steps, text),
          lines_of(finding.values, text),
          lines_of(finding.tables, text),
          lines_of(finding.series, text) + lines_of(finding.bar_charts, text),
          lines_of(finding.drawings, text)};
}

/// All that has no more to show than one plain text and one digested.
Texts short_texts(std::string plain, std::string digested) {
  Texts texts(kPlain.size() + kDigests.size());
  texts.front() = std::move(plain);
  texts[kPlain.size()] = std::move(digested);
  return texts;
}

/// By panel's mark, `project` or the name of an output, and check or column.
using HeldLines = std::map<std::pair<std::string, std::string>, Texts>;

void add_outputs(const std::vector<OutputTable>& outputs, HeldLines& lines) {
  for (const OutputTable& output : outputs) {
    for (std::size_t i = 0; i < output.declaration.columns.size(); ++i) {
      std::string cells =
          lines_of(output.rows, [&](const OutputRow& row) { return i < row.size() ? held_value(row[i]) : "absent"; });
      lines[{output.declaration.file, output.declaration.columns[i].name}] =
          short_texts(std::to_string(output.rows.size()) + " rows", std::move(cells));
    }
  }
}

HeldLines lines_of_run(const Inputs& inputs, const panel_dossier::LoadedPlugin& plugin) {
  const Project& project = *inputs.intake.project;
  NoProgress progress;
  const Results results = run_checks(project, inputs.settings, {plugin}, 2, progress);
  if (!results.failures.empty()) throw std::runtime_error(joined(results.failures, "\n"));
  HeldLines lines;
  const auto add = [&](const std::string& where, const auto& findings, const auto& not_applicable) {
    for (const RecordedFinding& finding : findings) lines[{where, finding.check}] = texts_of(whole_finding(finding));
    for (const NotApplicable& absent : not_applicable) {
      lines[{where, absent.check}] = short_texts("does not apply", absent.reason);
    }
  };
  for (std::size_t i = 0; i < project.panels.size(); ++i) {
    add(project.panels[i].mark, results.panel_findings[i], results.panel_not_applicable[i]);
  }
  add("project", results.project_findings, results.project_not_applicable);
  add_outputs(results.outputs, lines);
  lines[{"project", "problems"}] =
      short_texts(std::to_string(results.problems.size()), lines_of(results.problems, [](const InputProblem& problem) {
                    return held_line({problem.file, std::to_string(problem.line), problem.message, problem.advice});
                  }));
  return lines;
}

/// Names and settings of the variants; the sample's own first.
std::vector<std::pair<std::string, nlohmann::json>> variants_of(const nlohmann::ordered_json& patches,
                                                                const nlohmann::json& sample) {
  std::vector<std::pair<std::string, nlohmann::json>> variants{{"sample", sample}};
  for (const auto& [name, patch] : patches.items()) {
    variants.emplace_back(name, sample);
    variants.back().second.merge_patch(nlohmann::json::parse(patch.dump()));
  }
  return variants;
}

/// What the case gives of its own check, with the texts of a finding's columns behind one another.
Texts texts_of(const Plugin& plugin, const CheckCases& cases, const CheckCase& one) {
  Project project = cases.sound_project();
  Settings settings = cases.sound_settings();
  if (one.change) one.change(project, settings);
  const CheckDeclaration* declared = find_declaration(plugin, cases.check);
  const bool of_project = cases.of_project || (declared != nullptr && declared->scope == CheckScope::project);
  const CheckOutcome outcome = of_project ? outcomes_of(plugin, project, settings).project
                                          : prepared(plugin, project, settings)->check_panel(project.panels.at(0));
  const Finding* finding = find_finding(outcome, cases.check);
  if (finding != nullptr) return texts_of(*finding);
  const NotApplicable* absent = find_not_applicable(outcome, cases.check);
  return short_texts("does not apply", absent == nullptr ? std::string() : absent->reason);
}

nlohmann::json settings_of(const InputOptions& options) {
  // Settings may hold comments.
  return nlohmann::json::parse(read_file(options.settings_file), nullptr, true, true);
}

std::filesystem::path tests_of(const std::string& plugin) {
  return std::filesystem::path(PANEL_DOSSIER_SOURCE_DIR) / "tests" / plugin;
}

std::filesystem::path object_of(const std::string& plugin) {
  return std::filesystem::path(PANEL_DOSSIER_PLUGIN_DIR) / (plugin + ".so");
}

}  // namespace

std::vector<std::string> held_cases_faults(const std::string& plugin) {
  const panel_dossier::LoadedPlugin loaded = load_plugin(object_of(plugin));
  HeldFile held(tests_of(plugin) / "held_cases.csv", {"check", "of", "case"}, {"verdict", "value"}, {"all of it"});
  std::map<std::vector<std::string>, std::vector<std::string>> lines;  // registered in no certain order
  for (const CheckCases& cases : registered_cases()) {
    for (const CheckCase& one : cases.cases) {
      Texts texts = texts_of(*loaded.plugin, cases, one);
      Texts key{cases.check, cases.of_project ? "project" : std::string(), one.label};
      lines[key] = {texts[0], texts[1], held_line(texts)};
    }
  }
  for (const auto& [key, texts] : lines) {
    Texts line = key;
    line.insert(line.end(), texts.begin(), texts.end());
    held.add(std::move(line));
  }
  return held.faults(plugin);
}

std::vector<std::string> held_findings_faults(const std::string& plugin) {
  const std::filesystem::path file = tests_of(plugin) / "held_settings.json";
  if (!std::filesystem::exists(file)) return {};
  const auto what = nlohmann::ordered_json::parse(read_file(file));
  const panel_dossier::LoadedPlugin loaded = load_plugin(object_of(plugin));
  const TemporaryFolder folder;
  write_sample_panels(folder, what.at("panels").get<std::string>());
  const InputOptions options = sample_panels_options(folder);
  HeldFile held(tests_of(plugin) / "held_findings.csv", {"settings", "of", "check or column"}, kPlain, kDigests);
  HeldLines sample;
  for (const auto& [name, settings] : variants_of(what.at("settings"), settings_of(options))) {
    folder.write("settings.json", settings.dump());
    const Inputs inputs = read_inputs(options);
    if (inputs.refused()) {
      throw std::runtime_error("the settings '" + name + "' are refused:\n" +
                               lines_of(inputs.diagnostics, [](const Diagnostic& one) { return to_string(one); }));
    }
    HeldLines lines = lines_of_run(inputs, loaded);
    for (const auto& [key, texts] : lines) {
      const auto same = sample.find(key);
      if (same != sample.end() && same->second == texts) continue;
      Texts line{name, key.first, key.second};
      line.insert(line.end(), texts.begin(), texts.end());
      held.add(std::move(line));
    }
    if (sample.empty()) sample = std::move(lines);
  }
  return held.faults(plugin);
}

}  // namespace panel_dossier::testing
