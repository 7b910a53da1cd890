#include "core/api/testing/plugin_trial.h"

#include <unistd.h>

#include <algorithm>
#include <cfenv>
#include <clocale>
#include <csignal>
#include <cstddef>
#include <cstdint>
#include <exception>
#include <filesystem>
#include <locale>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <system_error>
#include <thread>
#include <utility>
#include <vector>

#include "core/api/finding/contract.h"
#include "core/api/support/words.h"
#include "core/api/testing/cited_inputs.h"
#include "core/api/testing/finding_difference.h"
#include "core/api/testing/formula.h"
#include "core/api/testing/tested_plugin.h"

namespace panel_dossier::testing {

namespace {

/// What belongs to the whole program and no plugin may touch.
struct GlobalState {
  std::string locale;      ///< of the C library, all categories
  std::string cpp_locale;  ///< name of the global std::locale
  std::string current_folder;
  std::vector<std::string> environment;
  int rounding_mode = 0;                     ///< of the calling thread
  std::vector<std::string> signal_handlers;  ///< by number of the signal, from 1
};

std::string handler_of(int signal) {
  struct sigaction action {};
  if (::sigaction(signal, nullptr, &action) != 0) return "none";
  // Handlers are compared by their address; what they are called is not known.
  return std::to_string(reinterpret_cast<std::uintptr_t>(action.sa_handler)) + " " + std::to_string(action.sa_flags);
}

GlobalState global_state() {
  GlobalState state;
  const char* const locale = std::setlocale(LC_ALL, nullptr);
  state.locale = locale == nullptr ? "" : locale;
  state.cpp_locale = std::locale().name();
  std::error_code error;
  const std::filesystem::path folder = std::filesystem::current_path(error);
  state.current_folder = error ? error.message() : folder.string();
  for (char** entry = environ; entry != nullptr && *entry != nullptr; ++entry) state.environment.emplace_back(*entry);
  std::sort(state.environment.begin(), state.environment.end());
  state.rounding_mode = std::fegetround();
  for (int signal = 1; signal < NSIG; ++signal) state.signal_handlers.push_back(handler_of(signal));
  return state;
}

/// The names of what differs, separated by commas; empty when nothing does.
std::string global_state_difference(const GlobalState& before, const GlobalState& after) {
  std::vector<std::string> changed;
  if (before.locale != after.locale || before.cpp_locale != after.cpp_locale) changed.emplace_back("locale");
  if (before.current_folder != after.current_folder) changed.emplace_back("current folder");
  if (before.environment != after.environment) changed.emplace_back("environment");
  if (before.rounding_mode != after.rounding_mode) changed.emplace_back("rounding mode");
  if (before.signal_handlers != after.signal_handlers) changed.emplace_back("signal handlers");
  return joined(changed);
}

bool is_listed(const std::vector<std::string>& names, const CitedInput& input) {
  return std::any_of(names.begin(), names.end(),
                     [&](const std::string& name) { return names_input(name, input.name); });
}

bool is_declared(const CheckDeclaration& check, const CitedInput& input) {
  return std::any_of(check.inputs.begin(), check.inputs.end(), [&](const CheckInput& declared) {
    return declared.source == input.source && names_input(declared.name, input.name);
  });
}

bool is_optional(const CheckDeclaration& check, const CitedInput& input) {
  return std::any_of(check.inputs.begin(), check.inputs.end(), [&](const CheckInput& declared) {
    return declared.optional && declared.source == input.source && names_input(declared.name, input.name);
  });
}

/// The project with one panel of each of the first so many types.
Project one_panel_a_type(const Project& project, std::size_t types) {
  Project result = project;
  result.panels.clear();
  std::set<std::string> seen;
  for (const Panel& panel : project.panels) {
    if (seen.size() == types) break;
    if (seen.insert(panel.type).second) result.panels.push_back(panel);
  }
  return result;
}

/// Where a finding stands: a panel of the project by its index, or the project.
using Place = std::optional<std::size_t>;

/// A finding of the sound run that must not stay what it is when one of its inputs is gone.
struct Dependent {
  Place place;
  const Finding* finding;
};

/// Whether the reason tells of the input: by its name, with or without the set, by the words of the finding for it, or
/// by the word that stands there instead.
bool tells_of(const std::string& reason, const CitedInput& input, const Finding& finding, bool is_spoilt) {
  const auto has = [&](std::string_view text) { return !text.empty() && reason.find(text) != std::string::npos; };
  const std::string_view name = input.name;
  if (has(name)) return true;
  if (input.source == CheckInput::Source::property && has(name.substr(name.find('.') + 1))) return true;
  if (!is_spoilt) return false;
  return has(kUnknownWord) || std::any_of(finding.inputs.begin(), finding.inputs.end(), [&](const Input& one) {
           const bool is_it = one.origin.property == input.name || one.origin.key == input.name;
           return is_it && has(one.name);
         });
}

class Trial {
 public:
  Trial(const Plugin& plugin, const Project& project, const Settings& settings, const TrialOptions& options)
      : plugin_(plugin), options_(options), whole_{project, settings} {
    name_origins(whole_.project);
    small_ = {one_panel_a_type(whole_.project, options.types), settings};
  }

  TrialReport report() {
    const GlobalState before = global_state();
    judge_declarations();
    const auto first = run(whole_);
    if (first) {
      judge_state(before);
      judge_first(*first);
      judge_repeats(*first);
      judge_inputs();
    }
    judge_state(before);
    return std::move(report_);
  }

 private:
  const Plugin& plugin_;
  TrialOptions options_;
  ProjectAndSettings whole_;
  ProjectAndSettings small_;
  TrialReport report_;
  std::set<std::string> told_;

  /// One text for each subject: the same on another panel says no more.
  void fault(const std::string& subject, const std::string& what) {
    if (told_.insert(subject).second) report_.faults.push_back(what);
  }
  void fault(const std::string& what) { fault(what, what); }

  /// A property made by hand may not tell its full name, as one that was read does.
  static void name_origins(Project& project) {
    for_each_properties(project, [](Properties& properties) {
      Properties named;
      for (const auto& [name, property] : properties.all()) {
        Property copy = property;
        if (copy.origin.kind == OriginKind::export_file) copy.origin.property = name;
        const std::size_t dot = name.find('.');
        named.add(name.substr(0, dot), name.substr(dot + 1), std::move(copy));
      }
      properties = std::move(named);
    });
  }

  std::string place_text(const Place& place, const Project& project) const {
    return place ? " of panel " + project.panels[*place].mark : " of the project";
  }

  std::optional<PluginOutcomes> run(const ProjectAndSettings& of) {
    try {
      return outcomes_of(plugin_, of.project, of.settings);
    } catch (const std::exception& error) {
      fault(std::string("throws: ") + error.what());
      return std::nullopt;
    }
  }

  void judge_state(const GlobalState& before) {
    const std::string changed = global_state_difference(before, global_state());
    if (!changed.empty()) fault("state", "changes what belongs to the whole program: " + changed);
  }

  void judge_declarations() {
    const std::string breach = declaration_breach(plugin_.checks(), plugin_.info().id);
    if (!breach.empty()) fault(breach);
  }

  void judge_contract(const CheckOutcome& outcome, const std::string& panel, const std::string& when) {
    const std::string breach = contract_breach(outcome, plugin_.checks(), panel);
    if (!breach.empty()) fault("contract " + breach, breach + when);
  }

  /// Calls `visit(place, outcome)` for each panel and for the project.
  template <typename Visit>
  static void for_each_outcome(const PluginOutcomes& outcomes, const Visit& visit) {
    for (std::size_t i = 0; i < outcomes.panels.size(); ++i) visit(Place(i), outcomes.panels[i]);
    visit(Place(), outcomes.project);
  }

  void judge_first(const PluginOutcomes& first) {
    std::map<std::string, std::set<CitedInput>> cited;
    for_each_outcome(first, [&](const Place& place, const CheckOutcome& outcome) {
      const std::string panel = place ? whole_.project.panels[*place].global_id : std::string();
      judge_contract(outcome, panel, place_text(place, whole_.project));
      for (const Finding& finding : outcome.findings) {
        ++report_.findings;
        judge_formulas(finding, place);
        cited[finding.check].merge(judge_citations(finding));
      }
    });
    if (options_.uncited_inputs) judge_uncited(cited);
  }

  void judge_formulas(const Finding& finding, const Place& place) {
    for (const Step& step : finding.steps) report_.formulas += step.formula.empty() ? 0 : 1;
    for (const std::string& one : formula_faults(finding)) {
      fault(one.substr(0, one.find("': ")), one + place_text(place, whole_.project));
    }
  }

  std::set<CitedInput> judge_citations(const Finding& finding) {
    const std::vector<CitedInput> cited = cited_inputs(finding, whole_.settings);
    const CheckDeclaration* check = find_declaration(plugin_, finding.check);
    if (check != nullptr) {
      for (const CitedInput& input : cited) {
        if (!is_declared(*check, input)) fault(check->id + " cites " + input.name + ", which its declaration does not");
      }
    }
    return {cited.begin(), cited.end()};
  }

  void judge_uncited(const std::map<std::string, std::set<CitedInput>>& cited) {
    for (const CheckDeclaration& check : plugin_.checks()) {
      const auto found = cited.find(check.id);
      for (const CheckInput& declared : check.inputs) {
        const auto is_it = [&](const CitedInput& input) {
          return input.source == declared.source && names_input(declared.name, input.name);
        };
        const bool is_cited = found != cited.end() && std::any_of(found->second.begin(), found->second.end(), is_it);
        if (!declared.optional && !is_cited)
          fault(check.id + " declares " + declared.name + ", which no finding cites");
      }
    }
  }

  // The same again.

  void judge_same(const CheckOutcome& first, const CheckOutcome& again, const Place& place, const std::string& when) {
    const std::string difference = outcome_difference(first, again);
    if (!difference.empty()) {
      fault("same " + when, "does not give the same " + when + place_text(place, whole_.project) + ": " + difference);
    }
  }

  void judge_repeats(const PluginOutcomes& first) {
    if (const auto again = run(whole_)) {
      for_each_outcome(first, [&](const Place& place, const CheckOutcome& outcome) {
        judge_same(outcome, place ? again->panels[*place] : again->project, place, "a second time");
      });
    }
    try {
      judge_reversed(first);
      judge_threads(first);
    } catch (const std::exception& error) {
      fault(std::string("throws with panels in another order: ") + error.what());
    }
  }

  void judge_reversed(const PluginOutcomes& first) {
    const std::unique_ptr<PluginRun> again = prepared(plugin_, whole_.project, whole_.settings);
    for (std::size_t i = first.panels.size(); i-- > 0;) {
      judge_same(first.panels[i], again->check_panel(whole_.project.panels[i]), i, "with the panels in opposite order");
    }
  }

  /// What one thread saw: the outcomes by panel, and what went wrong.
  struct Seen {
    std::vector<CheckOutcome> panels = {};
    std::string wrong = {};
  };

  void judge_threads(const PluginOutcomes& first) {
    const std::unique_ptr<PluginRun> shared = prepared(plugin_, whole_.project, whole_.settings);
    std::vector<Seen> seen(options_.threads);
    std::vector<std::thread> threads;
    for (std::size_t t = 0; t < seen.size(); ++t) {
      threads.emplace_back([&, t] { check_all(*shared, t, seen[t]); });
    }
    for (std::thread& thread : threads) thread.join();
    for (const Seen& one : seen) {
      if (!one.wrong.empty()) {
        fault(one.wrong + " in a thread");
        continue;
      }
      for (std::size_t i = 0; i < one.panels.size(); ++i) {
        judge_same(first.panels[i], one.panels[i], i, "from several threads");
      }
    }
  }

  /// Each thread starts with another panel.
  void check_all(const PluginRun& run, std::size_t thread, Seen& seen) const {
    const std::vector<Panel>& panels = whole_.project.panels;
    const int rounding = std::fegetround();
    seen.panels.resize(panels.size());
    try {
      for (std::size_t i = 0; i < panels.size(); ++i) {
        const std::size_t at = (i + thread) % panels.size();
        seen.panels[at] = run.check_panel(panels[at]);
      }
    } catch (const std::exception& error) {
      seen.wrong = std::string("throws ") + error.what();
    } catch (...) {
      seen.wrong = "throws what is no std::exception";
    }
    if (std::fegetround() != rounding) seen.wrong = "changes the rounding mode";
  }

  // Inputs taken away and spoilt.

  void judge_inputs() {
    const auto sound = run(small_);
    if (!sound) return;
    std::map<CitedInput, std::vector<Dependent>> by_input;
    std::map<CitedInput, std::vector<Dependent>> by_whole;
    for_each_outcome(*sound, [&](const Place& place, const CheckOutcome& outcome) {
      for (const Finding& finding : outcome.findings) {
        for (const CitedInput& input : cited_inputs(finding, small_.settings)) {
          if (input.source == CheckInput::Source::table) continue;
          std::vector<Dependent>& all = by_input[input];
          if (!depends(finding, input)) continue;
          all.push_back({place, &finding});
          std::vector<Dependent>& of_whole = by_whole[whole_input(input)];
          if (of_whole.empty() || of_whole.back().finding != &finding) of_whole.push_back({place, &finding});
        }
      }
    });
    report_.inputs = by_input.size();
    for (const auto& [input, all] : by_whole) judge_removal(input, all);
    for (const auto& [input, all] : by_input) {
      if (!all.empty()) judge_spoiling(input, all);
    }
  }

  bool depends(const Finding& finding, const CitedInput& input) const {
    const CheckDeclaration* check = find_declaration(plugin_, finding.check);
    if (check == nullptr || is_optional(*check, input)) return false;
    return finding.verdict == Verdict::pass || (options_.figures_too && finding.verdict == Verdict::information);
  }

  void judge_removal(const CitedInput& input, const std::vector<Dependent>& all) {
    ProjectAndSettings without_it = small_;
    remove_input(without_it, input);
    report_.removals += all.size();
    judge_variant(without_it, input, all, "without " + input.name, false);
  }

  void judge_spoiling(const CitedInput& input, const std::vector<Dependent>& all) {
    const auto spoil = [&](Spoiling how, const std::string& when) {
      ProjectAndSettings variant = small_;
      if (!spoil_input(variant, input, how)) return;
      report_.spoilings += all.size();
      judge_variant(variant, input, all, when, true);
    };
    spoil(Spoiling::not_a_number, "with NaN for " + input.name);
    if (!is_listed(options_.either_sign, input)) {
      spoil(Spoiling::opposite_sign, "with the opposite sign of " + input.name);
    }
    if (options_.thousandfold) spoil(Spoiling::thousandfold, "with a thousand times " + input.name);
    if (!is_listed(options_.free_text, input)) {
      spoil(Spoiling::unknown_word, "with an unknown word for " + input.name);
    }
  }

  /// Runs what the dependents need and demands that none stays what it was.
  void judge_variant(const ProjectAndSettings& variant, const CitedInput& input, const std::vector<Dependent>& all,
                     const std::string& when, bool is_spoilt) {
    try {
      const bool needs_project = std::any_of(all.begin(), all.end(), [](const Dependent& one) { return !one.place; });
      const PluginOutcomes outcomes =
          needs_project ? outcomes_of(plugin_, variant.project, variant.settings) : panel_outcomes(variant, all);
      for (const Dependent& one : all) {
        const CheckOutcome& outcome = one.place ? outcomes.panels[*one.place] : outcomes.project;
        const std::string panel = one.place ? variant.project.panels[*one.place].global_id : std::string();
        judge_contract(outcome, panel, place_text(one.place, variant.project) + " " + when);
        judge_dependent(one, outcome, input, when, is_spoilt);
      }
    } catch (const std::exception& error) {
      fault("throws " + when + ": " + error.what());
    }
  }

  PluginOutcomes panel_outcomes(const ProjectAndSettings& variant, const std::vector<Dependent>& all) const {
    const std::unique_ptr<PluginRun> run = prepared(plugin_, variant.project, variant.settings);
    PluginOutcomes outcomes;
    outcomes.panels.resize(variant.project.panels.size());
    std::set<std::size_t> places;
    for (const Dependent& one : all) places.insert(one.place.value());
    for (const std::size_t place : places) {
      outcomes.panels[place] = run->check_panel(variant.project.panels[place]);
    }
    return outcomes;
  }

  void judge_dependent(const Dependent& one, const CheckOutcome& outcome, const CitedInput& input,
                       const std::string& when, bool is_spoilt) {
    const Finding* found = find_finding(outcome, one.finding->check);
    if (found == nullptr) return;  // no longer applies, or has breached the contract
    const std::string subject = found->check + place_text(one.place, small_.project);
    const std::string verdict = "is '" + std::string(to_string(found->verdict)) + "' ";
    if (found->verdict == Verdict::pass || found->verdict == Verdict::information) {
      fault(found->check + " " + when, subject + " " + verdict + when);
      return;
    }
    // What fails by a wrong number has that to say.
    if (is_spoilt && found->verdict == Verdict::fail) return;
    if (tells_of(found->reason, input, *one.finding, is_spoilt)) return;
    fault(found->check + " " + when,
          subject + " " + verdict + when + ", for a reason that does not name it: " + found->reason);
  }
};

}  // namespace

TrialReport try_plugin(const Plugin& plugin, const Project& project, const Settings& settings,
                       const TrialOptions& options) {
  return Trial(plugin, project, settings, options).report();
}

}  // namespace panel_dossier::testing
