// The sections of the dossier, in its order.
#pragma once

#include "core/dossier/layout/book.h"

namespace panel_dossier {

void write_cover(Book& book);
void write_contents(Book& book);
void write_reading_guide(Book& book);
void write_glance(Book& book);
void write_panel_overview(Book& book);
void write_chapters(Book& book);
void write_panel_sheets(Book& book, const DossierProgress& progress);
void write_maintenance(Book& book);
void write_safety_file(Book& book);
void write_fire_information(Book& book);
void write_evidence_register(Book& book);
void write_open_points(Book& book);
void write_changes(Book& book);
void write_verification_guide(Book& book);

/// Head and foot of every page; last of all, because it states the number of pages.
void write_furniture(Book& book);

}  // namespace panel_dossier
