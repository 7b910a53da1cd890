// Part 7: what is dangerous about these panels, how they come down again, and where their materials go.

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include "core/api/finding/roles.h"
#include "core/api/support/words.h"
#include "core/dossier/layout/number_format.h"
#include "core/dossier/parts/sections.h"
#include "core/dossier/parts/upkeep/advice_tables.h"
#include "core/dossier/parts/upkeep/lifting_table.h"

namespace panel_dossier {

namespace {

void write_risks(Book& book) {
  book.flow.heading("Residual risks of these panels");
  if (book.guidance().of_topic("safety.risk").empty()) {
    book.flow.paragraph("No risk could be stated: there is no table of guidance.");
    return;
  }
  book.flow.paragraph("The project's risk assessment and the local codes come first.", type::kNote);
  set_advice(book, "safety.risk", "risk, and what to do");
}

/// The panel's place in the order of erection; none where nobody gives it.
std::optional<double> erection_order(const Book& book, const PanelSummary& panel) {
  const RecordedFinding* erection = finding_of_role(book.results().build, panel.findings, role::kErection);
  if (erection == nullptr) return std::nullopt;
  for (const NamedValue& value : erection->derivation->values) {
    if (value.id != "erection_order") continue;
    if (const auto* number = std::get_if<double>(&value.value)) return *number;
    if (const auto* text = std::get_if<std::string>(&value.value)) return parse_decimal(*text);
  }
  return std::nullopt;
}

/// `2 × Lifting loop, single use`, and the certificates that the panel names.
std::string lifting_points(const Book& book, const Panel& panel) {
  std::map<std::string, long> counts;
  for (const Part& part : panel.parts) {
    if (!is_lifting_point(part)) continue;
    switch (lifting_reuse(book.project(), book.content.settings, panel, part)) {
      case LiftingReuse::single_use: counts["single use: not for lifting again"] += part.count; break;
      case LiftingReuse::certified: counts["stated for repeated use"] += part.count; break;
      case LiftingReuse::not_shown: counts["reuse not shown: not for lifting again"] += part.count; break;
    }
  }
  std::vector<std::string> texts;
  texts.reserve(counts.size());
  for (const auto& [words, count] : counts) texts.push_back(std::to_string(count) + ", " + words);
  return texts.empty() ? "none in the model" : joined(texts, "; ");
}

/// The lifting certificates that the panel names; one that proves nothing on the day of assessment says so.
std::string certificates(const Book& book, const Panel& panel) {
  const auto day = book.content.settings.text("project.assessment_date");
  std::vector<std::string> texts;
  for (const std::size_t index : panel.evidence) {
    const Evidence& document = book.project().evidence[index];
    if (document.kind != EvidenceKind::lifting_certificate) continue;
    const bool holds =
        evidence_fault(document, {EvidenceKind::lifting_certificate}, day ? day->value : std::string()).empty();
    texts.push_back(holds ? document.id : document.id + " (DOES NOT HOLD)");
  }
  return texts.empty() ? "none" : joined(texts);
}

Cell role_cell(const Book& book, const PanelSummary& panel, std::string_view role) {
  const RecordedFinding* finding = finding_of_role(book.results().build, panel.findings, role);
  return finding == nullptr ? Cell("–") : value_cell(*finding);
}

bool has_lifting_finding(const Book& book) {
  const ResultsDocument& results = book.results();
  return std::any_of(results.panels.begin(), results.panels.end(), [&results](const PanelSummary& panel) {
    return finding_of_role(results.build, panel.findings, role::kLifting) != nullptr;
  });
}

void write_dismantling(Book& book) {
  Flow& flow = book.flow;
  flow.heading("Dismantling, in the reverse order of erection");
  const Guidance& guidance = book.guidance();
  for (const char* topic : {"safety.dismantling", "safety.lifting"}) {
    for (const Advice* advice : guidance.of_topic(topic)) {
      const std::string of = subjects_in_words(guidance, *advice);
      flow.item(of.empty() ? advice->text : of + ": " + advice->text);
    }
  }
  flow.item(has_lifting_finding(book)
                ? "The lifting findings on the page of each panel lead to the assumptions made."
                : "This dossier holds no check of lifting points: the lift plan has to bring its own.");
  flow.paragraph(
      "Calculated masses from the model, without slings, props and water taken up. Centre of gravity in metres, the "
      "panel standing and seen from inside: x from its left edge, y from its inner face, z from its foot. A dash: the "
      "figure could not be calculated; the page of the panel tells why.",
      type::kNote);
  std::vector<std::pair<std::optional<double>, std::size_t>> order;
  for (std::size_t i = 0; i < book.results().panels.size(); ++i)
    order.emplace_back(erection_order(book, book.results().panels[i]), i);
  // Panels without an order come last.
  std::stable_sort(order.begin(), order.end(),
                   [](const auto& a, const auto& b) { return a.first.value_or(-1.0) > b.first.value_or(-1.0); });
  TableSpec table;
  table.style = type::kFine;
  table.columns = {{"step", true}, {"panel"},     {"type"},      {"mass", true},     {"on the hook", true},
                   {"x m", true},  {"y m", true}, {"z m", true}, {"lifting points"}, {"certificate"}};
  for (std::size_t step = 0; step < order.size(); ++step) {
    const PanelSummary& summary = book.results().panels[order[step].second];
    const Panel& panel = book.project().panels[order[step].second];
    const RecordedFinding* centre = finding_of_role(book.results().build, summary.findings, role::kCentreOfGravity);
    table.rows.push_back(
        {order[step].first ? std::to_string(step + 1) : "–", link_cell(summary.mark, panel_anchor(summary.global_id)),
         summary.type, role_cell(book, summary, role::kMass), role_cell(book, summary, role::kHookLoad),
         coordinate_cell(centre, "from_left_edge"), coordinate_cell(centre, "from_inner_face"),
         coordinate_cell(centre, "from_foot"), lifting_points(book, panel), certificates(book, panel)});
  }
  if (table.rows.empty()) {
    flow.paragraph("The project has no panels.");
    return;
  }
  set_table(flow, std::move(table));
}

void write_cautions(Book& book) {
  bool any = false;
  for (const PluginSummary& plugin : book.results().build.plugins) {
    if (plugin.caution.empty()) continue;
    if (!any) book.flow.heading("Cautions of the disciplines");
    any = true;
    book.flow.item(plugin.title + ": " + plugin.caution);
  }
}

}  // namespace

void write_safety_file(Book& book) {
  book.begin_part(DossierPart::safety_file);
  write_risks(book);
  write_dismantling(book);
  book.flow.heading("Treatments and dusts");
  set_product_advice(book,
                     {{"safety.treatment", "treatment, as its maker declares"}, {"safety.dust", "dust and fibres"}});
  book.flow.heading("Reuse and disposal by material");
  set_product_advice(book, {{"safety.reuse", "reuse"}, {"safety.disposal", "disposal"}});
  write_cautions(book);
}

}  // namespace panel_dossier
