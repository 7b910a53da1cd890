#include "core/dossier/guidance/guidance.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <utility>
#include <variant>

#include "core/api/finding/roles.h"
#include "core/api/support/words.h"
#include "core/trace/value_text.h"

namespace panel_dossier {

namespace {

/// The day on which the last of those who approve did so; empty where nobody did, or where the last word of one of them
/// is another. Of two words of one day the worse counts.
std::string approval_day(const std::vector<ApprovalLine>& approvals) {
  std::map<std::string, std::pair<std::string, bool>> last;  // day and whether approved, by role
  for (const ApprovalLine& line : approvals) {
    if (!line.counts()) continue;
    const bool is_approved = line.decision == "approved";
    auto& [day, approved] = last.try_emplace(line.role, line.day, is_approved).first->second;
    if (line.day > day) approved = is_approved;
    if (line.day == day) approved = approved && is_approved;
    day = std::max(day, line.day);
  }
  std::string newest;
  for (const auto& [role, word] : last) {
    if (!word.second) return {};
    newest = std::max(newest, word.first);
  }
  return newest;
}

std::string setting_words(const Settings& settings, const std::string& key) {
  const auto text = settings.text(key);
  return text ? text->value : std::string();
}

/// The word of the role, however it is written.
std::string role_of(const Party& party) {
  return lower_case(trimmed(party.role));
}

bool is_named(const Party& party) {
  return !trimmed(party.name).empty() || !trimmed(party.organisation).empty();
}

/// Works the guidance out, step by step; each step may add open points.
class GuidanceMaker {
 public:
  GuidanceMaker(const Project& project, const Settings& settings, const ResultsDocument& results,
                const GuidanceTables& tables)
      : project_(project), settings_(settings), results_(results), tables_(tables), facts_(settings, results) {}

  Guidance make() {
    made_.rows = tables_.rows;
    made_.subjects = subjects_of(project_, settings_, results_);
    put_results();
    take_parties();
    made_.advice = advice_on(made_.rows, made_.subjects.all, facts_);
    made_.calendar = calendar_of(made_.advice, made_.rows, made_.subjects.all, project_, settings_);
    take_information();
    open_identity();
    open_calendar();
    open_advice();
    open_intervals();
    put_project_facts();
    take_duties();
    return std::move(made_);
  }

 private:
  const Project& project_;
  const Settings& settings_;
  const ResultsDocument& results_;
  const GuidanceTables& tables_;
  FactSource facts_;
  Guidance made_;

  void open(const std::string& part, std::string title, std::string what, std::string who,
            const std::vector<std::size_t>& panels = {}) {
    OpenPoint point;
    point.verdict = Verdict::not_assessed;
    point.check = "handover." + part;
    point.title = std::move(title);
    point.what = std::move(what);
    point.who = std::move(who);
    if (panels.size() < project_.panels.size()) {
      for (const std::size_t panel : panels) point.marks.push_back(project_.panels[panel].mark);
      if (!panels.empty()) point.first_panel = project_.panels[panels.front()].global_id;
    }
    made_.open_points.push_back(std::move(point));
  }

  /// What the first page of a panel has a place for, and years later nobody can find out any more.
  void open_identity() {
    struct Identity {
      const char* words;
      std::vector<std::pair<const char*, const char*>> properties;  ///< one of them says it
    };
    const std::vector<Identity> needed{
        {"serial number", {{"Pset_ManufacturerOccurrence", "SerialNumber"}}},
        {"production batch", {{"Panel_Identity", "Batch"}, {"Pset_ManufacturerOccurrence", "BatchReference"}}},
        {"year of production", {{"Pset_ManufacturerTypeInformation", "ProductionYear"}}},
        {"period of the warranty", {{"Pset_Warranty", "WarrantyPeriod"}}},
        {"first day of the warranty", {{"Pset_Warranty", "WarrantyStartDate"}}}};
    for (const Identity& one : needed) {
      std::vector<std::size_t> lacking;
      for (std::size_t i = 0; i < project_.panels.size(); ++i) {
        const Properties& properties = project_.panels[i].properties;
        const bool is_given = std::any_of(one.properties.begin(), one.properties.end(), [&](const auto& name) {
          const Property* property = properties.find(name.first, name.second);
          const auto* text = property == nullptr ? nullptr : std::get_if<std::string>(&property->value);
          return property != nullptr && (text == nullptr || !trimmed(*text).empty());
        });
        if (!is_given) lacking.push_back(i);
      }
      if (lacking.empty()) continue;
      const auto [set, name] = one.properties.front();
      open("panels", "Panels", std::string(one.words) + " is not stated: " + set + "." + name,
           "the maker of the panels; in the export", lacking);
    }
  }

  void take_parties() {
    std::set<const Party*> taken;
    for (const NeededParty& needed : tables_.parties) {
      if (needed.is_left_out) {
        made_.roles_left_out.push_back(needed.role);
      } else {
        take_role(needed, taken);
      }
    }
    for (const Party& party : project_.parties) {
      if (taken.contains(&party) || !is_named(party) || makes_a_product(party)) continue;
      const std::string role = role_of(party);
      const auto same = std::find_if(made_.parties.begin(), made_.parties.end(),
                                     [&](const PartyLine& line) { return line.role == role; });
      if (same != made_.parties.end()) {
        same->parties.push_back(party);
      } else {
        made_.parties.push_back({role, {}, false, {party}});
      }
    }
    for (const PartyLine& line : made_.parties) {
      for (const Party& party : line.parties) put_once(project_subject(), "party:" + line.role, party_in_words(party));
    }
  }

  void take_role(const NeededParty& needed, std::set<const Party*>& taken) {
    PartyLine line{needed.role, needed.why, needed.is_needed, {}};
    for (const Party& party : project_.parties) {
      const std::string role = role_of(party);
      if (!is_named(party)) continue;
      if (role != needed.role && std::find(needed.also.begin(), needed.also.end(), role) == needed.also.end()) continue;
      line.parties.push_back(party);
      taken.insert(&party);
      if (party.contact.empty()) open("people", "Parties", needed.role + " has no contact", needed.who);
    }
    if (line.parties.empty() && needed.is_needed)
      open("people", "Parties", needed.role + " is not named (library table 'people'): " + needed.why, needed.who);
    if (!line.parties.empty() || needed.is_needed) made_.parties.push_back(std::move(line));
  }

  /// The table of products in part 6 names these.
  bool makes_a_product(const Party& party) const {
    const auto& subjects = made_.subjects.all;
    return std::any_of(subjects.begin(), subjects.end(), [&party](const Subject& subject) {
      const auto maker = subject.facts.find("product.maker");
      return maker != subject.facts.end() && !party.organisation.empty() && maker->second.front() == party.organisation;
    });
  }

  void take_information() {
    InformationStatus& status = made_.information;
    const std::string who = "whoever issues the dossier, in the settings";
    take_identifier(who);
    status.revision = setting_words(settings_, "information.revision");
    status.status_code = setting_words(settings_, "information.status_code");
    status.purpose = setting_words(settings_, "information.purpose");
    const std::array<std::pair<const char*, const std::string*>, 3> given{
        {{"revision", &status.revision}, {"status_code", &status.status_code}, {"purpose", &status.purpose}}};
    for (const auto& [key, text] : given) {
      if (text->empty())
        open("information", "Issue and status", std::string("setting information.") + key + " is blank", who);
    }
    const std::string& issue = results_.build.issue.id;
    if (is_revision(issue) && !status.revision.empty() && issue != status.revision) {
      open("information", "Issue and status",
           "the build is issue " + issue + ", the setting information.revision says " + status.revision, who);
    }
    take_approvals();
  }

  static bool is_revision(std::string_view text) {
    return text.size() >= 3 && (text[0] == 'P' || text[0] == 'C') && text[1] >= '0' && text[1] <= '9' &&
           text[2] >= '0' && text[2] <= '9';
  }

  void take_identifier(const std::string& who) {
    constexpr std::array<const char*, 7> kIdentifierFields{
        "project", "originator", "functional_breakdown", "spatial_breakdown", "form", "discipline", "number"};
    std::vector<std::string> fields;
    std::vector<std::string> blank;
    for (const char* name : kIdentifierFields) {
      const std::string text = setting_words(settings_, std::string("information.identifier.") + name);
      if (text.empty()) {
        blank.emplace_back(name);
      } else {
        fields.push_back(text);
      }
    }
    if (blank.empty()) {
      made_.information.identifier = joined(fields, "-");
    } else {
      open("information", "Issue and status",
           fields.empty() ? "setting information.identifier is blank"
                          : "setting information.identifier lacks " + joined(blank),
           who);
    }
  }

  void take_approvals() {
    const std::string today = results_.build.time_utc.substr(0, results_.build.time_utc.find('T'));
    for (std::size_t i = 0;; ++i) {
      const std::string key = "information.approvals." + std::to_string(i) + ".";
      ApprovalLine line;
      line.role = setting_words(settings_, key + "role");
      if (line.role.empty()) break;
      const std::string name = setting_words(settings_, key + "name");
      const std::string organisation = setting_words(settings_, key + "organisation");
      line.by = name;
      if (!name.empty() && !organisation.empty()) line.by += ", ";
      line.by += organisation;
      line.decision = setting_words(settings_, key + "decision");
      line.day = setting_words(settings_, key + "day");
      line.revision = setting_words(settings_, key + "revision");
      line.why_not = why_not_counted(line, today);
      made_.information.approvals.push_back(std::move(line));
    }
    if (!approval_day(made_.information.approvals).empty()) return;
    open("information", "Issue and status",
         made_.information.approvals.empty() ? "setting information.approvals is blank"
                                             : "no approval is of this revision and of a day up to the build, or "
                                               "somebody's last word on it is another than 'approved'",
         "whoever approves the dossier, in the settings");
  }

  std::string why_not_counted(const ApprovalLine& line, const std::string& today) const {
    const std::string& revision = made_.information.revision;
    std::vector<std::string> faults;
    if (revision.empty()) {
      faults.emplace_back("the revision of this dossier is not stated");
    } else if (line.revision != revision) {
      faults.push_back("of another revision than " + revision);
    }
    if (line.day.empty()) faults.emplace_back("without a day");
    if (line.day > today) faults.push_back("of a day after the build of " + today);
    return joined(faults, ", and ");
  }

  void open_calendar() {
    if (made_.calendar.start.empty())
      open("calendar", "Calendar of inspections", made_.calendar.start_source, made_.calendar.start_who);
    if (made_.calendar.end.empty()) {
      open("calendar", "Calendar of inspections",
           "setting handover.design_life_years is blank: the calendar ends after ten years",
           "the client with the designer, in the settings");
    }
  }

  /// One open point a missing fact and kind of subject, whichever sentences ask for it.
  void open_advice() {
    struct Lack {
      std::set<std::string> subjects;
      std::set<std::size_t> panels;
    };
    std::map<std::string, Lack> lacks;
    std::vector<std::string> order;
    for (const Advice& advice : made_.advice) {
      for (const std::string& key : advice.missing) {
        const auto [lack, is_new] = lacks.try_emplace(key);
        if (is_new) order.push_back(key);
        for (const std::size_t subject : advice.subjects) {
          // An advice is grouped by its text, so each of its subjects lacks each of its facts.
          if (made_.subjects.all[subject].kind != SubjectKind::panel)
            lack->second.subjects.insert(made_.subjects.all[subject].name);
        }
        lack->second.panels.insert(advice.panels.begin(), advice.panels.end());
      }
    }
    constexpr std::size_t kNamesOfLack = 12;
    for (const std::string& key : order) {
      const Lack& lack = lacks.at(key);
      const FactNeed need = need_of(key);
      std::string what = need.what + " is not stated";
      if (!lack.subjects.empty()) what += ": " + list_some({lack.subjects.begin(), lack.subjects.end()}, kNamesOfLack);
      open("guidance", "Operation, safety and fire", std::move(what), need.who,
           {lack.panels.begin(), lack.panels.end()});
    }
  }

  /// One open point an interval that no calendar can hold.
  void open_intervals() {
    for (const Advice& advice : made_.advice) {
      if (advice.unread_interval.empty()) continue;
      std::set<std::string> names;
      for (const std::size_t subject : advice.subjects) names.insert(made_.subjects.all[subject].name);
      constexpr std::size_t kNamesOfInterval = 12;
      const GuidanceRow& row = made_.rows[advice.row];
      const std::string key = placeholders_in(row.interval_years).front();
      open("calendar", "Calendar of inspections",
           need_of(key).what + " is '" + advice.unread_interval +
               "', which is no number of years from a month to 200 years, so that '" + row.id +
               "' has no day in the calendar: " + list_some({names.begin(), names.end()}, kNamesOfInterval),
           need_of(key).who, advice.panels);
    }
  }

  Subject& project_subject() { return made_.subjects.all.front(); }

  void put_count(const std::string& key, std::size_t count) {
    if (count > 0) project_subject().facts[key] = {std::to_string(count)};
  }

  void put_results() {
    for (const std::string_view role : role::kAll) put_count("open:" + std::string(role), panels_open(role));
    put_count("project.documents", project_.evidence.size());
    put_count("project.documents_open", documents_open());
    put_count("project.evidence_needed", findings_that_need_evidence());
    put_count("project.storeys", most_storeys());
  }

  /// Documents whose file or register entry is at fault, that do not hold on the day of assessment, or that do not say
  /// what they are.
  std::size_t documents_open() const {
    const std::string day = setting_words(settings_, "project.assessment_date");
    return static_cast<std::size_t>(
        std::count_if(project_.evidence.begin(), project_.evidence.end(), [&day](const Evidence& document) {
          return document.kind == EvidenceKind::not_stated || !evidence_fault(document, {document.kind}, day).empty();
        }));
  }

  std::size_t findings_that_need_evidence() const {
    const auto count = [](const std::vector<RecordedFinding>& findings) {
      return static_cast<std::size_t>(std::count_if(findings.begin(), findings.end(), [](const RecordedFinding& one) {
        return one.verdict == Verdict::evidence_needed;
      }));
    };
    std::size_t all = count(results_.project_findings);
    for (const PanelSummary& panel : results_.panels) all += count(panel.findings);
    return all;
  }

  /// Of the building that has the most of them in the model.
  std::size_t most_storeys() const {
    std::map<std::string, std::size_t> by_building;
    std::size_t most = 0;
    for (const Storey& storey : project_.storeys) most = std::max(most, ++by_building[storey.building]);
    return most;
  }

  void put_project_facts() {
    std::map<std::string, std::pair<std::size_t, std::size_t>> by_topic;
    for (const Advice& advice : made_.advice) {
      auto& [whole, lacking] = by_topic[made_.rows[advice.row].topic];
      ++(advice.missing.empty() ? whole : lacking);
    }
    for (const auto& [topic, counts] : by_topic) {
      put_count("advice:" + topic, counts.first);
      put_count("lacking:" + topic, counts.second);
    }
    put_count("project.parties_open", static_cast<std::size_t>(std::count_if(
                                          made_.parties.begin(), made_.parties.end(), [](const PartyLine& line) {
                                            return line.is_needed && line.parties.empty();
                                          })));
    if (!made_.calendar.start.empty()) project_subject().facts["project.calendar_start"] = {made_.calendar.start};
    if (!made_.information.identifier.empty())
      project_subject().facts["project.identifier"] = {made_.information.identifier};
    const std::string approved = approval_day(made_.information.approvals);
    if (!approved.empty()) project_subject().facts["project.approved"] = {approved};
  }

  /// Panels of which nobody makes a finding of that role count as open.
  std::size_t panels_open(std::string_view role) const {
    return static_cast<std::size_t>(
        std::count_if(results_.panels.begin(), results_.panels.end(), [&](const PanelSummary& panel) {
          const RecordedFinding* finding = finding_of_role(results_.build, panel.findings, role);
          return finding == nullptr || (finding->verdict != Verdict::pass && finding->verdict != Verdict::information);
        }));
  }

  void take_duties() {
    made_.jurisdiction = setting_words(settings_, "project.jurisdiction");
    const std::string here = lower_case(made_.jurisdiction);
    for (const DutyRow& duty : tables_.duties) {
      if (std::find(duty.jurisdictions.begin(), duty.jurisdictions.end(), here) == duty.jurisdictions.end()) continue;
      made_.duties.push_back(duty_line(duty, project_subject(), facts_, results_.build));
      const DutyLine& line = made_.duties.back();
      if (line.state == DutyState::unmet)
        open("duties", duty.regulation, duty.expectation + ": " + line.what, duty.who);
    }
    if (made_.duties.empty() && !tables_.duties.empty()) {
      open("duties", "Duties of the country",
           made_.jurisdiction.empty() ? "setting project.jurisdiction is blank: which duties apply cannot be told"
                                      : "there is no table of duties for '" + made_.jurisdiction + "'",
           "the practice, with a file duties-COUNTRY.csv in its folder of guidance");
    }
  }
};

}  // namespace

std::string party_in_words(const Party& party) {
  std::vector<std::string> texts;
  for (const std::string* text : {&party.name, &party.organisation, &party.contact}) {
    if (!text->empty()) texts.push_back(*text);
  }
  return joined(texts);
}

std::vector<const Advice*> Guidance::of_topic(std::string_view topic) const {
  std::vector<const Advice*> found;
  for (const Advice& one : advice) {
    if (rows[one.row].topic == topic) found.push_back(&one);
  }
  return found;
}

std::vector<std::string> Guidance::texts_on(std::size_t subject, std::string_view topic) const {
  std::vector<std::string> texts;
  for (const Advice* one : of_topic(topic)) {
    if (std::binary_search(one->subjects.begin(), one->subjects.end(), subject)) texts.push_back(one->text);
  }
  return texts;
}

Guidance make_guidance(const Project& project, const Settings& settings, const ResultsDocument& results,
                       const GuidanceTables& tables) {
  return GuidanceMaker(project, settings, results, tables).make();
}

}  // namespace panel_dossier
