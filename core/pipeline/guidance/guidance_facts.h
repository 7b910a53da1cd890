// What a sentence of guidance may ask for: the kinds of things it can speak of and the facts known of each.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace panel_dossier {

/// What a row of guidance speaks of; it is printed once for all subjects of the kind that say the same.
enum class SubjectKind {
  panel,    ///< each panel
  layer,    ///< each layer of the build-ups
  product,  ///< each material of layers and parts
  fixing,   ///< each kind of fastener and accessory that is not for lifting
  lifting,  ///< each kind of lifting point
  opening,  ///< each kind of window, door or bare opening
  project,  ///< the project, once
};

/// The word of the column `of`; none for another word.
std::optional<SubjectKind> parse_subject_kind(std::string_view word);

/// A fact that was not given, for people.
struct FactNeed {
  std::string what;  ///< `contact of the maker`
  std::string who;   ///< can supply it, and where it is entered
};

/// Places in parts 6, 7 and 8 where sentences stand: `operation.function` …
const std::vector<std::string>& guidance_topics();

/// Why a subject of that kind cannot have the fact, for people; empty where it can. It can have a listed one, a
/// property (`Set.Name`), `setting:KEY`; a panel and the project `check:ID.FIELD`, `check:ID#VALUE`, `role:ROLE.FIELD`
/// and `role:ROLE#VALUE`; the project `party:ROLE`, `advice:TOPIC` and `lacking:TOPIC` (sentences that are whole, and
/// that lack a fact), `open:ROLE` (panels whose finding of that role is no pass and no information).
std::string fact_fault(SubjectKind kind, std::string_view key);

/// Whether the fact is worked out of the sentences, or with them: a sentence that asks for it would find it absent.
bool is_for_duties_alone(std::string_view key);

/// What is missing where the fact is, and who can supply it. Precondition: some kind of subject can have it.
FactNeed need_of(std::string_view key);

/// Of a key with one of the prefixes above: what stands between the prefix and `.` or `#`, and what behind it.
struct FindingFact {
  std::string_view name;   ///< id of the check, or role
  std::string_view field;  ///< `verdict`, `value`, `limit`, `basis`, `clause` or `reason`; or the id of a named value
  bool is_named_value = false;
};

/// None where the key is of another form.
std::optional<FindingFact> parse_finding_fact(std::string_view key);

}  // namespace panel_dossier
