// The texts of the files in data/, which the build makes part of the program.
#pragma once

#include <string_view>

namespace panel_dossier::handover_data {

/// Sheets and columns of COBie 2.4: `sheet,position,column,kind,refers to`, in the order of sheets and columns.
std::string_view cobie_columns_csv();
/// What the columns may hold: `position,list,value`.
std::string_view cobie_pick_lists_csv();
/// The companion page: its frame with places `{{name}}`, its looks and its script.
std::string_view companion_html();
std::string_view companion_css();
std::string_view companion_js();

}  // namespace panel_dossier::handover_data
