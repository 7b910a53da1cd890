// The sections of the dossier, in its order.
#pragma once

#include <functional>

#include "core/dossier/parts/book.h"

namespace panel_dossier {

/// Called when a piece is laid out, for the progress.
using DossierTick = std::function<void()>;

void write_cover(Book& book);
void write_contents(Book& book);
void write_introduction(Book& book);
void write_outcome(Book& book);
void write_building(Book& book);
void write_types(Book& book);
/// Those of the project's panels, in that order.
void write_panels(Book& book, const std::vector<std::size_t>& panels, const DossierTick& tick);
/// In place of panels and annex, the volumes that hold them.
void write_volumes(Book& book);
void write_maintenance(Book& book);
void write_safety_file(Book& book);
void write_fire_information(Book& book);
void write_evidence_register(Book& book);
void write_open_points(Book& book);
void write_changes(Book& book);
void write_verification_guide(Book& book);
void write_annex(Book& book, const DossierTick& tick);

/// What the cover is to the dossier, with the weights for lifting: the first pages of workshop.pdf.
void write_workshop_front(Book& book);
/// The checks that only the practice's own people need, by discipline.
void write_workshop_checks(Book& book);

/// Head and foot of every page; last of all, because it states the number of pages.
void write_furniture(Book& book);

}  // namespace panel_dossier
