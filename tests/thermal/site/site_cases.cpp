// Cases of days open to the weather, and of readings in use.
#include "core/api/testing/check_cases.h"
#include "core/api/testing/panels.h"
#include "core/api/testing/records.h"
#include "tests/thermal/heated_panel.h"

using namespace panel_dossier;
using namespace panel_dossier::testing;

namespace {

constexpr const char* kFrom = "Panel_WeatherExposure.From";
constexpr const char* kUntil = "Panel_WeatherExposure.Until";
constexpr const char* kPermitted = "Panel_WeatherExposure.PermittedDays";
constexpr const char* kDocument = "Panel_WeatherExposure.DocumentId";

/// The timber panel with a breather membrane outside, which stood open for 14 days of 28 that it may.
Project exposed_project() {
  HeatedPanel model;
  const std::size_t membrane = add_material(model.project, "Breather membrane", "membrane", 300.0, 0.2);
  Properties& properties = model.project.materials[membrane].properties;
  put(properties, "Panel_WeatherExposure", "PermittedDays", 28.0);
  put(properties, "Panel_WeatherExposure", "DocumentId", std::string("DOP-1"));
  add_layer(model.panel(), "breather membrane", "membrane", membrane, 0.0005);
  put(model.panel().properties, "Panel_WeatherExposure", "From", std::string("2026-05-04"));
  put(model.panel().properties, "Panel_WeatherExposure", "Until", std::string("2026-05-18"));
  Evidence document;
  document.id = "DOP-1";
  document.kind = EvidenceKind::product_declaration;
  document.subject = "breather membrane for walls";
  document.status = EvidenceStatus::present;
  document.origin = origin_of("IfcDocumentReference");
  model.project.evidence.push_back(document);
  return model.project;
}

Change exposed(const char* day, std::vector<RecordValue> values, std::uint32_t row) {
  return change_panels([=](Panel& panel) { add_record(panel, record_of("weather_exposure", day, values, row)); });
}

Settings site_settings() {
  return HeatedPanel().settings;
}

const RegisterCases kExposure{
    {.check = "thermal.weather_exposure",
     .sound_project = exposed_project,
     .sound_settings = site_settings,
     .cases = {
         {.label = "half of the days that are permitted", .verdict = Verdict::pass, .value = 14.0},
         {.label = "the last permitted day",
          .change = set_of_panels(kUntil, "2026-06-01"),
          .verdict = Verdict::pass,
          .value = 28.0},
         {.label = "a day more",
          .change = set_of_panels(kFrom, "2026-04-19"),
          .verdict = Verdict::fail,
          .value = 29.0,
          .reason = "the membrane 'Breather membrane' stood open for 29 days, longer than it may; look at it with its "
                    "maker, and replace it or cover the panel before it takes up water"},
         {.label = "still open on the day of assessment",
          .change = together({drop_of_panels(kUntil), set_of_panels(kFrom, "2026-04-01")}),
          .verdict = Verdict::fail,
          .value = 61.0,
          .reason =
              "the membrane 'Breather membrane' has stood open for 61 days, longer than it may; look at it with its "
              "maker, and replace it or cover the panel before it takes up water"},
         {.label = "two spells are added",
          .change = together(
              {exposed("2026-05-01", {cell_of("erected", "2026-03-20"), cell_of("covered", "2026-04-10")}, 2),
               exposed("2026-05-20", {cell_of("erected", "2026-05-04"), cell_of("covered", "2026-05-18")}, 3)}),
          .verdict = Verdict::fail,
          .value = 35.0,
          .reason = "the membrane 'Breather membrane' stood open for 35 days, longer than it may; look at it with its "
                    "maker, and replace it or cover the panel before it takes up water"},
         {.label = "days that two rows have count once",
          .change = together(
              {exposed("2026-05-10", {cell_of("erected", "2026-05-04")}, 2),
               exposed("2026-05-20", {cell_of("erected", "2026-05-04"), cell_of("covered", "2026-05-18")}, 3),
               exposed("2026-05-21", {cell_of("erected", "2026-05-10"), cell_of("covered", "2026-05-19")}, 4)}),
          .verdict = Verdict::pass,
          .value = 15.0},
         {.label = "a first spell that nobody says was covered",
          .change = together(
              {exposed("2026-05-01", {cell_of("erected", "2026-03-20")}, 2),
               exposed("2026-05-20", {cell_of("erected", "2026-05-04"), cell_of("covered", "2026-05-18")}, 3)}),
          .verdict = Verdict::fail,
          .value = 59.0,
          .reason = "the membrane 'Breather membrane' stood open for 59 days, longer than it may; look at it with its "
                    "maker, and replace it or cover the panel before it takes up water"},
         {.label = "a second spell that ends before it begins",
          .change = together(
              {exposed("2026-05-01", {cell_of("erected", "2026-05-04")}, 2),
               exposed("2026-05-20", {cell_of("erected", "2026-05-16"), cell_of("covered", "2026-05-10")}, 3)}),
          .verdict = Verdict::not_assessed,
          .reason = "the membrane is covered (Panel_WeatherExposure.Until) before it is erected "
                    "(Panel_WeatherExposure.From), or one of them is no day"},
         {.label = "installed before it was erected",
          .change = change_panels(
              [](Panel& panel) { put(panel.properties, "Panel_Install", "Date", std::string("2026-04-07")); }),
          .verdict = Verdict::evidence_needed,
          .value = 14.0,
          .reason =
              "the membrane stands open from 2026-05-04 (Panel_WeatherExposure.From), but the panel was installed "
              "before that, on 2026-04-07 (IfcPropertySingleValue Date, 0000000000000000000001, line 7); correct one "
              "of the days, or "
              "record the days between them"},
         {.label = "no permitted days",
          .change = drop_of_materials(kPermitted),
          .verdict = Verdict::evidence_needed,
          .reason = "how long 'Breather membrane' may stand open to the weather is not stated: give its material "
                    "Panel_WeatherExposure.PermittedDays and the document behind it"},
         {.label = "no document behind the permitted days",
          .change = drop_of_materials(kDocument),
          .verdict = Verdict::evidence_needed,
          .value = 14.0,
          .reason =
              "the permitted days of 'Breather membrane' name no document (Panel_WeatherExposure.DocumentId); name "
              "the product's declaration or approval"},
         {.label = "a document of another product",
          .change = [](Project& project, Settings&) { project.evidence.back().subject = "roof underlay"; },
          .verdict = Verdict::evidence_needed,
          .value = 14.0,
          .reason =
              "document 'DOP-1' does not name 'Breather membrane' in its scope or subject (evidence/evidence.csv)"},
         {.label = "a document that is not there",
          .change = [](Project& project, Settings&) { project.evidence.pop_back(); },
          .verdict = Verdict::evidence_needed,
          .value = 14.0,
          .reason =
              "no document of the project has the identification 'DOP-1' that Panel_WeatherExposure.DocumentId of "
              "'Breather membrane' names; put it there"},
         {.label = "covered after the assessment",
          .change = set_of_panels(kUntil, "2026-06-02"),
          .verdict = Verdict::not_assessed,
          .reason = "the membrane's exposure has a day after project.assessment_date 2026-06-01: 2026-06-02"},
         {.label = "covered before it was erected",
          .change = set_of_panels(kUntil, "2026-05-03"),
          .verdict = Verdict::not_assessed,
          .reason = "the membrane is covered (Panel_WeatherExposure.Until) before it is erected "
                    "(Panel_WeatherExposure.From), or one of them is no day"},
         {.label = "no day of erection",
          .change = drop_of_panels(kFrom),
          .verdict = Verdict::not_assessed,
          .reason = "the day from which the membrane was open (Panel_WeatherExposure.From) is missing"},
         {.label = "no day of assessment",
          .change = drop_setting("project.assessment_date"),
          .verdict = Verdict::not_assessed,
          .reason = "whether the days of exposure have been is not known: set project.assessment_date",
          .also_moves = {"*"}},
         {.label = "no membrane outside",
          .change = change_panels([](Panel& panel) {
            panel.layers.back().category = "finish";
            panel.layers.back().material.reset();
          }),
          .verdict = Verdict::not_assessed,
          .reason = "no membrane is known in the outer half of the panel whose days could be permitted",
          .also_moves = {"*"}},
         {.label = "no record of exposure",
          .change = together({drop_of_panels(kFrom), drop_of_panels(kUntil)}),
          .reason = "there is no record of exposure to the weather"},
         {.label = "installed beside a panel with a record, without one",
          .change =
              [](Project& project, Settings&) {
                project.panels.push_back(project.panels.front());
                project.panels.back().global_id = "1111111111111111111112";
                project.panels.back().mark = "P-02";
                Panel& panel = project.panels.front();
                remove(panel.properties, kFrom);
                remove(panel.properties, kUntil);
                put(panel.properties, "Panel_Install", "Date", std::string("2026-05-04"));
              },
          .verdict = Verdict::evidence_needed,
          .reason = "the panel is installed, and how long its membrane stood open is not recorded as it is of others: "
                    "write Panel_WeatherExposure.From and Until into the records of exposure",
          .also_moves = {"*"}},
     }}};

RecordValue reading(const char* column, double value) {
  return {column, value, std::string(column) == "temperature" ? "°C" : ""};
}

Change read_in_use(const char* day, const char* place, std::vector<RecordValue> values, std::uint32_t row) {
  values.push_back(cell_of("place", place));
  return change_panels([=](Panel& panel) { add_record(panel, record_of("in_use", day, values, row)); });
}

/// Read twice at the sole plate, where it has dried, and once at the head.
Project read_project() {
  HeatedPanel model;
  const auto add = [&](const char* day, const char* place, double moisture, std::uint32_t row) {
    add_record(model.panel(),
               record_of("in_use", day, {reading("moisture content", moisture), cell_of("place", place)}, row));
  };
  add("2026-05-04", "sole plate", 0.24, 2);
  add("2026-05-20", "sole plate", 0.16, 3);
  add("2026-05-20", "head", 0.12, 4);
  return model.project;
}

const RegisterCases kReadings{
    {.check = "thermal.moisture_in_use",
     .sound_project = read_project,
     .sound_settings = site_settings,
     .cases = {
         {.label = "the newest reading of each place", .verdict = Verdict::pass, .value = 16.0},
         {.label = "the limit itself",
          .change = read_in_use("2026-05-21", "head", {reading("moisture content", 0.2)}, 5),
          .verdict = Verdict::pass,
          .value = 20.0},
         {.label = "wet wood",
          .change = read_in_use("2026-05-21", "head", {reading("moisture content", 0.21)}, 5),
          .verdict = Verdict::fail,
          .value = 21.0,
          .reason =
              "moisture content 21 % at 'head' on 2026-05-21 (records/in_use.csv, row 5) is more than wood may hold "
              "for long; find where the water comes from, dry and read again"},
         {.label = "a reading that no meter gives",
          .change = read_in_use("2026-05-21", "head", {reading("moisture content", 0.01)}, 5),
          .verdict = Verdict::evidence_needed,
          .value = 16.0,
          .reason =
              "moisture content 1 % at 'head' on 2026-05-21 (records/in_use.csv, row 5) is none that can be; read "
              "again"},
         {.label = "a temperature that no wall has",
          .change = read_in_use("2026-05-21", "head", {reading("temperature", 95.0)}, 5),
          .verdict = Verdict::evidence_needed,
          .value = 16.0,
          .reason = "temperature 95 °C at 'head' on 2026-05-21 (records/in_use.csv, row 5) is none that can be; read "
                    "again"},
         {.label = "two readings of one place and day",
          .change = read_in_use("2026-05-20", "head", {reading("moisture content", 0.13)}, 5),
          .verdict = Verdict::evidence_needed,
          .value = 16.0,
          .reason =
              "moisture content 13 % at 'head' on 2026-05-20 (records/in_use.csv, row 5) is not the only reading of "
              "that place and day; correct one"},
         {.label = "a humidity alone",
          .change = together({change_panels([](Panel& panel) { panel.records.clear(); }),
                              read_in_use("2026-05-21", "cavity", {reading("relative humidity", 0.8)}, 5)}),
          .verdict = Verdict::information,
          .value = std::string("no reading of wood moisture")},
         {.label = "no reading",
          .change = change_panels([](Panel& panel) { panel.records.clear(); }),
          .reason = "there is no reading of moisture, temperature or humidity in use"},
     }}};

}  // namespace
