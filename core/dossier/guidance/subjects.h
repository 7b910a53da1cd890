// What guidance speaks of in this project: its panels, build-ups, products, fixings, lifting points and openings.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "core/api/model/project.h"
#include "core/api/model/settings.h"
#include "core/pipeline/guidance/guidance_facts.h"
#include "core/trace/results_document.h"

namespace panel_dossier {

/// Layers in one order with one thickness and product each, and the panels that have them.
struct BuildUp {
  std::vector<std::string> types;     ///< of its panels, each once
  std::vector<std::size_t> panels;    ///< ascending indices into Project::panels
  std::vector<std::size_t> subjects;  ///< of its layers from inside to outside, indices into the list of subjects
};

/// One thing that sentences speak of, with what is known of it.
struct Subject {
  SubjectKind kind = SubjectKind::project;
  std::string name;                 ///< for people
  std::vector<std::size_t> panels;  ///< ascending indices into Project::panels; of the project all
  std::map<std::string, std::vector<std::string>, std::less<>> facts = {};  ///< a fact that is not given is absent
  std::vector<const Properties*> properties = {};                           ///< the nearer ones first; never null
  /// Of the others that are one subject with the first: each stands in place of the first of `properties`. Never null.
  std::vector<const Properties*> properties_of_others = {};
};

/// Adds a value of a fact, once; an empty one is none.
void put_once(Subject& subject, const std::string& key, const std::string& value);

/// All subjects; the project, model and settings must outlive them.
struct Subjects {
  std::vector<Subject> all;
  std::vector<BuildUp> build_ups;  ///< in the order of the first panel
};

/// What to do with a lifting point after erection.
enum class LiftingReuse {
  single_use,  ///< stated of the point or in a certificate that may be its own
  certified,   ///< stated to be for repeated use, and a certificate that holds on the day of assessment is there
  not_shown,
};

/// Of one lifting point of a panel. What is stated of the point and what its certificate says are both asked: `single
/// use` of either counts. A certificate is of a point where its name, subject or scope holds the type or name
/// of the point, or else its kind (`lifting loop`); one that names another point of the panel is not, and one that
/// names none of them counts against every point and for none.
LiftingReuse lifting_reuse(const Project& project, const Settings& settings, const Panel& panel, const Part& point);

/// Ids of the lifting certificates of the panel that are of the point and hold on the day of assessment.
std::vector<std::string> lifting_certificates(const Project& project, const Settings& settings, const Panel& panel,
                                              const Part& point);

/// Whether the part is a lifting point.
bool is_lifting_point(const Part& part);

Subjects subjects_of(const Project& project, const Settings& settings, const ResultsDocument& results);

/// Contact of the party whose organisation or name that is; empty where there is none.
std::string contact_of(const Project& project, std::string_view organisation);

/// The layer's product, else its name: `Stone wool slab`, `Ventilated cavity`.
const std::string& name_of_layer(const Project& project, const Layer& layer);

}  // namespace panel_dossier
