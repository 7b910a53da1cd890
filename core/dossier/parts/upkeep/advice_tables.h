// Sentences of guidance as tables and items.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/dossier/parts/book.h"

namespace panel_dossier {

/// `all 60 panels`; else `all of INF-S, INF-W` where these types and no other panels are meant; else the marks.
std::string panels_in_words(const Project& project, const std::vector<std::size_t>& panels);

/// Names of the subjects of an advice, each once; empty where it speaks of panels or of the project.
std::string subjects_in_words(const Guidance& guidance, const Advice& advice);

/// Of what a sentence is, of which panels, who acts, and its source: `Stone wool slab; all 60 panels; joiner (common
/// practice)`.
std::string scope_in_words(const Book& book, const Advice& advice);

/// What a topic says, each sentence with its scope. Nothing where the topic says nothing.
void set_advice(Book& book, std::string_view topic, const std::string& head);

/// Rows of products with what each of the topics says of them, a dash where nothing.
void set_product_advice(Book& book, const std::vector<std::pair<std::string, std::string>>& topics_and_heads);

/// The numbers under which parts 6 and 8 name what comes again: by index into the advice, from 1; 0 for what does not.
std::vector<std::size_t> calendar_numbers(const Guidance& guidance);

/// `every year`, `every 5 years`, `every 6 months`; empty for none.
std::string interval_in_words(const std::optional<double>& years);

}  // namespace panel_dossier
