// What must hold of a COBie delivery before it is written.
#pragma once

#include <string>
#include <vector>

#include "core/dossier/handover/cobie_book.h"

namespace panel_dossier {

/// What breaks the rules, one line each, `Component row 12: Space 'x' is no row of Space`; empty when nothing does.
/// Every reference leads to a row, keys stand once, every type has a component, values of pick lists are those of the
/// list, no required cell is empty, no name is too long or has a comma, no text is longer than a cell may be.
std::vector<std::string> cobie_faults(const CobieBook& book);

/// Values in the columns of the list that the list itself does not have, in alphabetical order: classes of IFC that a
/// delivery adds, or the codes of a classification.
std::vector<std::string> own_values(const CobieBook& book, const PickList& list);

}  // namespace panel_dossier
