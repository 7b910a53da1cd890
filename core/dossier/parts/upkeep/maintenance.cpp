// Part 6: what the panels are made of and whom to call, how to look after, mend and renew each layer, and when.

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include "core/api/support/words.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/panel/panel_facts.h"
#include "core/dossier/parts/sections.h"
#include "core/dossier/parts/upkeep/advice_tables.h"

namespace panel_dossier {

namespace {

std::string fact_in_words(const Subject& subject, std::string_view key) {
  const auto fact = subject.facts.find(key);
  return fact == subject.facts.end() ? std::string() : joined(fact->second);
}

Cell or_not_stated(std::string text) {
  return text.empty() ? Cell("not stated") : Cell(std::move(text));
}

/// Names of windows, doors and what holds the panels, with the word for what each is; nothing of other kinds.
std::string bought_as(const Subject& subject) {
  switch (subject.kind) {
    case SubjectKind::opening: return fact_in_words(subject, "opening.kind");
    case SubjectKind::fixing: return fact_in_words(subject, "fixing.kind");
    case SubjectKind::lifting: return "lifting point";
    default: return {};
  }
}

/// What is bought as a whole, behind the materials.
void add_bought(const Book& book, TableSpec& table) {
  for (const Subject& subject : book.guidance().subjects.all) {
    const std::string use = bought_as(subject);
    if (use.empty() || use == "opening") continue;
    const Property* life = subject.properties.front()->find("Pset_ServiceLife", "ServiceLifeDuration");
    table.rows.push_back({subject.name, use, or_not_stated(fact_in_words(subject, "product.maker")),
                          or_not_stated(fact_in_words(subject, "product.contact")),
                          life == nullptr ? Cell("–") : Cell(property_text(*life)),
                          panels_in_words(book.project(), subject.panels)});
  }
}

void write_products(Book& book) {
  TableSpec table;
  table.columns = {{"product"}, {"used as"}, {"maker"}, {"contact"}, {"service life"}, {"panels"}};
  for (const Subject& subject : book.guidance().subjects.all) {
    if (subject.kind != SubjectKind::product) continue;
    std::vector<std::string> uses;
    for (const char* key : {"product.functions", "product.parts"}) {
      const auto fact = subject.facts.find(key);
      if (fact == subject.facts.end()) continue;
      for (const std::string& use : fact->second) {
        if (std::find(uses.begin(), uses.end(), use) == uses.end()) uses.push_back(use);
      }
    }
    const std::string years = fact_in_words(subject, "product.service_life_years");
    table.rows.push_back({subject.name, joined(uses), or_not_stated(fact_in_words(subject, "product.maker")),
                          or_not_stated(fact_in_words(subject, "product.contact")),
                          or_not_stated(years.empty() ? years : years + " years"),
                          panels_in_words(book.project(), subject.panels)});
  }
  add_bought(book, table);
  if (table.rows.empty()) return;
  book.flow.heading("Products, their makers, and whom to call");
  set_table(book.flow, std::move(table));
}

/// Layers that come off before layer `index`, the nearest to the hand first: those inside of an inner layer, those
/// outside of all others.
std::vector<std::string> comes_off_first(const Guidance& guidance, const BuildUp& build_up, std::size_t index) {
  const auto position = fact_in_words(guidance.subjects.all[build_up.subjects[index]], "layer.position");
  std::vector<std::string> names;
  if (position == "inside") {
    for (std::size_t i = 0; i < index; ++i) names.push_back(guidance.subjects.all[build_up.subjects[i]].name);
  } else {
    for (std::size_t i = build_up.subjects.size(); i-- > index + 1;)
      names.push_back(guidance.subjects.all[build_up.subjects[i]].name);
  }
  return names;
}

void write_build_up(Book& book, std::size_t index_of_build_up) {
  const Guidance& guidance = book.guidance();
  const BuildUp& build_up = guidance.subjects.build_ups[index_of_build_up];
  book.flow.heading("Build-up of " + joined(build_up.types) + ": what each layer does, and how a hole in it is mended");
  book.flow.anchor(build_up_anchor(index_of_build_up));
  TableSpec table;
  table.style = type::kFine;
  table.columns = {{"mm from inside", true}, {"layer"}, {"does"}, {"lost where it is cut"}, {"mend a hole"}};
  for (const std::size_t index : build_up.subjects) {
    const Subject& layer = guidance.subjects.all[index];
    table.rows.push_back({fact_in_words(layer, "layer.depth_mm"),
                          layer.name + ", " + fact_in_words(layer, "layer.thickness_mm") + " mm",
                          joined(guidance.texts_on(index, "operation.function"), "; "),
                          joined(guidance.texts_on(index, "operation.loss"), "; "),
                          joined(guidance.texts_on(index, "operation.repair"), "; ")});
  }
  set_table(book.flow, std::move(table));
  TableSpec renewal;
  renewal.style = type::kFine;
  renewal.columns = {{"renewing"}, {"service life"}, {"due"}, {"from"}, {"comes off first, in this order"}};
  for (std::size_t i = 0; i < build_up.subjects.size(); ++i) {
    const Subject& layer = guidance.subjects.all[build_up.subjects[i]];
    if (!layer.facts.contains("product.name")) continue;
    const std::string years = fact_in_words(layer, "product.service_life_years");
    std::string due = "–";
    if (const auto number = parse_decimal(years); number && !guidance.calendar.start.empty()) {
      due = months_later(guidance.calendar.start, static_cast<int>(std::lround(*number * 12.0))).substr(0, 4);
      if (!guidance.calendar.end.empty() && due >= guidance.calendar.end.substr(0, 4)) due = "with the building";
    }
    const std::vector<std::string> first = comes_off_first(guidance, build_up, i);
    renewal.rows.push_back({layer.name, or_not_stated(years.empty() ? years : years + " years"), due,
                            fact_in_words(layer, "layer.position") == "inside" ? "inside" : "outside",
                            first.empty() ? "nothing" : joined(first, ", then ")});
  }
  set_table(book.flow, std::move(renewal));
}

/// Under a heading, where the topic says something.
void write_topic(Book& book, const char* heading, std::string_view topic, const char* head, const char* anchor = "") {
  if (book.guidance().of_topic(topic).empty()) return;
  book.flow.heading(heading);
  if (*anchor != '\0') book.flow.anchor(anchor);
  set_advice(book, topic, head);
}

void write_recurring(Book& book) {
  const Guidance& guidance = book.guidance();
  const std::vector<std::size_t> numbers = calendar_numbers(guidance);
  TableSpec table;
  table.style = type::kFine;
  table.columns = {{"no.", true}, {"what"}, {"when"}, {"next"}, {"of what, who (source)"}};
  const std::string& built = book.results().build.time_utc;
  for (std::size_t i = 0; i < guidance.advice.size(); ++i) {
    const Advice& advice = guidance.advice[i];
    const GuidanceRow& row = guidance.rows[advice.row];
    const bool is_upkeep = row.topic == "operation.inspect" || row.topic == "operation.clean";
    if (numbers[i] == 0 && !is_upkeep) continue;
    // What comes again only after the building's life as set has no day.
    const bool has_calendar = numbers[i] != 0 && !guidance.calendar.end.empty();
    std::string next = has_calendar ? "not before the end of the building's life" : "–";
    for (const CalendarEntry& entry : guidance.calendar.entries) {
      if (entry.what != advice.text || entry.panels != advice.panels || entry.day <= built.substr(0, 10)) continue;
      next = entry.day;
      break;
    }
    const std::string when = interval_in_words(advice.interval_years);
    table.rows.push_back({numbers[i] == 0 ? "–" : std::to_string(numbers[i]), book.with_titles(advice.text),
                          when.empty() ? "as needed" : when, next, scope_in_words(book, advice)});
  }
  if (table.rows.empty()) return;
  book.flow.heading("Inspect, clean and renew");
  book.flow.anchor(kRecurringAnchor);
  set_table(book.flow, std::move(table));
}

/// `4 Fibre-cement cladding board` for each entry of the day.
std::string day_in_words(const Book& book, const std::vector<const CalendarEntry*>& entries, bool with_names) {
  const Guidance& guidance = book.guidance();
  const std::vector<std::size_t> numbers = calendar_numbers(guidance);
  std::vector<std::string> texts;
  for (std::size_t i = 0; i < guidance.advice.size(); ++i) {
    if (numbers[i] == 0) continue;
    const Advice& advice = guidance.advice[i];
    const auto entry = std::find_if(entries.begin(), entries.end(), [&](const CalendarEntry* one) {
      return one->what == advice.text && one->panels == advice.panels;
    });
    if (entry == entries.end()) continue;
    std::string text = std::to_string(numbers[i]);
    if (with_names) text += " " + ((*entry)->of.empty() ? "panels" : (*entry)->of);
    texts.push_back(std::move(text));
  }
  return joined(texts, with_names ? "; " : ", ");
}

void write_calendar(Book& book) {
  const Calendar& calendar = book.guidance().calendar;
  Flow& flow = book.flow;
  flow.heading("Calendar");
  if (calendar.start.empty()) {
    flow.paragraph("No day can be told: " + calendar.start_source + ". It can be supplied by: " + calendar.start_who +
                   ".");
    return;
  }
  flow.paragraph("From " + calendar.start + " (" + calendar.start_source + ") " +
                 (calendar.end.empty() ? "for ten years: how long the building is meant to stand is not set"
                                       : "to " + calendar.end + ", the end of the building's life as set") +
                 ". The numbers are those of the table above. The file calendar.ics of this build holds the same days "
                 "for a calendar program.");
  if (calendar.entries.empty()) return;
  constexpr int kMonthsInFull = 120;
  const std::string full_until = months_later(calendar.start, kMonthsInFull);
  std::map<std::string, std::vector<const CalendarEntry*>> days;
  std::map<std::string, std::vector<const CalendarEntry*>> years;
  for (const CalendarEntry& entry : calendar.entries) {
    if (entry.day <= full_until) {
      days[entry.day].push_back(&entry);
    } else {
      years[entry.day.substr(0, 4)].push_back(&entry);
    }
  }
  TableSpec full;
  full.style = type::kFine;
  full.columns = {{"day"}, {"no., of what"}};
  for (const auto& [day, entries] : days) full.rows.push_back({day, day_in_words(book, entries, true)});
  if (!full.rows.empty()) set_table(flow, std::move(full));
  TableSpec brief;
  brief.style = type::kFine;
  brief.columns = {{"year"}, {"no."}};
  for (const auto& [year, entries] : years) brief.rows.push_back({year, day_in_words(book, entries, false)});
  if (brief.rows.empty()) return;
  flow.heading("The years after, in short", type::kSubheading);
  set_table_in_columns(flow, std::move(brief), 3);
}

// The warranties of the export, each with the panels it holds for.
void write_warranty(Book& book) {
  std::map<std::array<std::string, 5>, std::vector<std::size_t>> panels_by_warranty;
  for (std::size_t i = 0; i < book.project().panels.size(); ++i) {
    const auto warranty = warranty_of(book.project().panels[i]);
    const bool is_given = std::any_of(warranty.begin(), warranty.end(), [](const auto& text) { return !text.empty(); });
    if (is_given) panels_by_warranty[warranty].push_back(i);
  }
  book.flow.heading("Warranty");
  if (panels_by_warranty.empty()) {
    book.flow.paragraph("The export gives no warranty (Pset_Warranty.WarrantyPeriod, WarrantyStartDate).");
    return;
  }
  constexpr std::array kHeads{"period", "from", "to", "contact", "exclusions"};
  TableSpec table;
  for (const char* head : kHeads) table.columns.emplace_back(ColumnSpec{head});
  table.columns.emplace_back(ColumnSpec{"panels"});
  table.columns.emplace_back(ColumnSpec{"marks"});
  for (const auto& [warranty, panels] : panels_by_warranty) {
    std::vector<Cell> row;
    row.reserve(table.columns.size());
    for (const std::string& text : warranty) row.push_back(or_not_stated(text));
    row.emplace_back(std::to_string(panels.size()));
    row.emplace_back(panels_in_words(book.project(), panels));
    table.rows.push_back(std::move(row));
  }
  set_table(book.flow, std::move(table));
}

}  // namespace

void write_maintenance(Book& book) {
  book.begin_part(DossierPart::maintenance);
  book.flow.paragraph(
      "Made from the layers, products, records and results of these panels. Each sentence has its source; the "
      "instructions of the makers and the local codes come first. What is not stated is listed in part 10 with who can "
      "supply it.",
      type::kNote);
  write_products(book);
  for (std::size_t i = 0; i < book.guidance().subjects.build_ups.size(); ++i) write_build_up(book, i);
  write_topic(book, "What the calculations say of a puncture", "operation.puncture", "puncture");
  write_topic(book, "What may be fixed where, and what may not", "operation.fixing", "fixing", kFixingAnchor);
  write_recurring(book);
  write_calendar(book);
  write_topic(book, "Alteration", "operation.alter", "before any change");
  write_warranty(book);
}

}  // namespace panel_dossier
