// Of part 1: who has which part in the project, the status of this information, and where each duty is met.
#pragma once

#include "core/dossier/parts/book.h"

namespace panel_dossier {

void write_parties(Book& book);
void write_status(Book& book);
void write_duties(Book& book);

/// Of part 10: what parts 1 and 6 to 8 would say if somebody stated it.
void write_guidance_gaps(Book& book);

/// `P03, for construction`; a night's build says that it is none.
std::string issue_text(const IssueMark& issue);

}  // namespace panel_dossier
