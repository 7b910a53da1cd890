#include "core/intake/library/library_files.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <map>
#include <optional>
#include <system_error>
#include <utility>

#include "core/api/support/project_file.h"
#include "core/api/support/words.h"

namespace panel_dossier {

namespace {

/// An office keeps a few libraries; a project adds its own.
constexpr std::size_t kMostLibraries = 20;
/// In one folder: tables and what lies beside them, declarations of an office's products.
constexpr std::size_t kMostLibraryFiles = 2000;

constexpr std::array kKinds{LibraryTableKind::materials, LibraryTableKind::boards,  LibraryTableKind::fixings,
                            LibraryTableKind::windows,   LibraryTableKind::lifting, LibraryTableKind::panels,
                            LibraryTableKind::evidence,  LibraryTableKind::people};

/// Of programs that keep tables.
constexpr std::array<std::string_view, 8> kOtherTableEndings{".xls", ".xlsm",    ".xlsb", ".xltx",
                                                             ".ods", ".numbers", ".tsv",  ".tab"};

std::optional<LibraryTableKind> kind_named(std::string_view name) {
  const std::string lower = lower_case(trimmed(name));
  const auto* found = std::find_if(kKinds.begin(), kKinds.end(), [&](auto kind) { return to_string(kind) == lower; });
  return found == kKinds.end() ? std::nullopt : std::optional(*found);
}

std::string kinds_in_words() {
  std::vector<std::string> names;
  names.reserve(kKinds.size());
  for (const LibraryTableKind kind : kKinds) names.emplace_back(to_string(kind));
  return joined(names);
}

/// `folder/file`, with one slash between them.
std::string inside(const std::string& folder, const std::string& file) {
  return joined({folder, file}, folder.ends_with('/') ? "" : "/");
}

/// What programs leave beside an open file.
bool is_passed_over(const std::string& name) {
  return name.starts_with('.') || name.starts_with("~$");
}

/// Files of the folder by name, folders and what links lead to among them; none when there are too many.
std::optional<std::vector<std::string>> names_in(const std::filesystem::path& folder) {
  std::vector<std::string> names;
  std::error_code failed;
  for (std::filesystem::directory_iterator at(folder, failed), end; !failed && at != end; at.increment(failed)) {
    std::string name = at->path().filename().string();
    if (is_passed_over(name)) continue;
    names.push_back(std::move(name));
    if (names.size() > kMostLibraryFiles) return std::nullopt;
  }
  std::sort(names.begin(), names.end());
  return names;
}

class LibraryFileReader {
 public:
  LibraryFileReader(std::filesystem::path settings_dir, std::string settings_name, Diagnostics& diagnostics)
      : settings_dir_(std::move(settings_dir)), settings_name_(std::move(settings_name)), diagnostics_(diagnostics) {}

  LibraryFiles read(const Settings& settings) {
    for (std::size_t i = 0;; ++i) {
      key_ = "library." + std::to_string(i);
      const auto entry = settings.text(key_);
      if (!entry) return std::move(found_);
      if (i == kMostLibraries) {
        refuse("is the " + std::to_string(i + 1) + "th library", "name at most " + std::to_string(kMostLibraries));
        return std::move(found_);
      }
      read_entry(entry->value);
    }
  }

 private:
  std::filesystem::path settings_dir_;
  std::string settings_name_;
  Diagnostics& diagnostics_;
  LibraryFiles found_;
  std::string key_;
  std::map<std::string, std::string> known_;        ///< path -> the key that names it
  std::map<LibraryTableKind, std::string> places_;  ///< of the tables of the library that is being read

  void refuse(std::string message, std::string advice) {
    diagnostics_.push_back({Severity::error, settings_name_, 0, 0, key_, {}, std::move(message), std::move(advice)});
  }

  void tell(Severity severity, const std::string& file, std::string message, std::string advice) {
    diagnostics_.push_back({severity, file, 0, 0, {}, {}, std::move(message), std::move(advice)});
  }

  void read_entry(const std::string& name) {
    const std::filesystem::path relative(name);
    std::error_code failed;
    const std::filesystem::path path = std::filesystem::weakly_canonical(settings_dir_ / relative, failed);
    if (relative.is_absolute() || name.find("://") != std::string::npos || name.empty()) {
      return refuse("'" + name + "' is no path relative to the settings", "give it as ../library");
    }
    if (failed || !std::filesystem::exists(path, failed)) {
      return refuse("'" + name + "' is not there", "name a folder, a workbook or a CSV file, relative to the settings");
    }
    const auto [first, is_new] = known_.emplace(path.string(), key_);
    if (!is_new) return refuse("'" + name + "' is named already by '" + first->second + "'", "name it once");
    places_.clear();
    const bool is_folder = std::filesystem::is_directory(path, failed);
    found_.folders.push_back({name, is_folder ? path : path.parent_path(), {}});
    const std::size_t tables = found_.tables.size();
    const std::size_t problems = diagnostics_.size();
    if (is_folder) {
      read_folder(path, name);
    } else {
      read_file_at(path, name);
    }
    const bool is_empty = found_.tables.size() == tables && found_.folders.back().declarations.empty();
    const bool is_refused =
        std::any_of(diagnostics_.begin() + static_cast<std::ptrdiff_t>(problems), diagnostics_.end(),
                    [](const Diagnostic& told) { return told.severity == Severity::error; });
    if (is_empty && !is_refused) {
      refuse("'" + name + "' holds no table of a library", "tables are " + kinds_in_words() + ", as .csv or .xlsx");
    }
  }

  void read_folder(const std::filesystem::path& folder, const std::string& name) {
    const auto names = names_in(folder);
    if (!names) return refuse("'" + name + "' holds more than 2000 files", "keep the library in a folder of its own");
    for (const std::string& file : *names) {
      const std::string shown = inside(name, file);
      const std::string lower = lower_case(file);
      if (lower == "declarations") {
        read_declarations(folder, file, shown);
      } else if (lower.ends_with(".csv") || lower.ends_with(".xlsx")) {
        if (leads_out(folder, file, shown)) continue;
        read_file_at(folder / file, shown);
      } else {
        tell_of_other_form(file, shown);
      }
    }
  }

  /// Documents may lie beside the tables; tables in a form that is not read are missed by whoever made them.
  void tell_of_other_form(const std::string& file, const std::string& shown) {
    const std::filesystem::path path(file);
    const std::string ending = lower_case(path.extension().string());
    const bool is_meant = !ending.empty() && kind_named(path.stem().string()).has_value();
    const auto* known = std::find(kOtherTableEndings.begin(), kOtherTableEndings.end(), ending);
    if (!is_meant && known == kOtherTableEndings.end()) return;
    tell(is_meant ? Severity::error : Severity::warning, shown, "is neither a .csv nor a .xlsx file and is not read",
         "save the table in one of these forms, or take the file out");
  }

  /// A shared folder must not show what lies elsewhere on the machine.
  bool leads_out(const std::filesystem::path& folder, const std::string& file, const std::string& shown) {
    if (find_evidence_file(folder, file) == EvidenceStatus::present) return false;
    tell(Severity::error, shown, "leads out of the library or to no file; not followed", "put the file itself there");
    return true;
  }

  void read_declarations(const std::filesystem::path& folder, const std::string& name, const std::string& shown) {
    std::error_code failed;
    const std::filesystem::path inner = std::filesystem::weakly_canonical(folder / name, failed);
    if (failed || inner.parent_path() != folder || !std::filesystem::is_directory(inner, failed)) {
      tell(Severity::error, shown, "leads out of the library or to no folder; not followed",
           "put the folder itself there");
      return;
    }
    const auto names = names_in(inner);
    if (!names) {
      tell(Severity::error, shown, "the folder holds more than 2000 files", "keep the declarations in use only");
      return;
    }
    for (const std::string& file : *names) {
      const std::string lower = lower_case(file);
      if (!lower.ends_with(".xml") && !lower.ends_with(".csv")) continue;
      std::string location = inside(name, file);
      if (leads_out(folder, location, inside(shown, file))) continue;
      found_.folders.back().declarations.push_back(std::move(location));
    }
  }

  void read_file_at(const std::filesystem::path& path, const std::string& shown) {
    const std::string lower = lower_case(shown);
    const std::string stem = path.stem().string();
    const auto kind = kind_named(stem);
    if (!kind && lower.ends_with(".csv")) {
      tell(Severity::warning, shown, "is no table of a library and is not read", "tables are " + kinds_in_words());
      return;
    }
    auto bytes = load_table_file(path, shown, diagnostics_);
    if (!bytes) return;
    const std::size_t tables = found_.tables.size();
    if (lower.ends_with(".xlsx")) {
      read_workbook(*bytes, shown, stem);
    } else {
      add_table(*kind, *bytes, shown, stem);
    }
    if (found_.tables.size() != tables) {
      found_.files.push_back({shown, std::move(*bytes), "Tables of the library: what an office enters once"});
    }
  }

  void read_workbook(const std::string& bytes, const std::string& shown, const std::string& stem) {
    const std::size_t problems = diagnostics_.size();
    const std::vector<std::string> sheets = sheets_of(bytes, shown, diagnostics_);
    if (diagnostics_.size() != problems) return;
    const bool has_named = std::any_of(sheets.begin(), sheets.end(), [](const auto& s) { return kind_named(s); });
    if (!has_named && sheets.size() == 1 && kind_named(stem)) {
      add_table(*kind_named(stem), bytes, shown, sheets.front());
      return;
    }
    for (const std::string& sheet : sheets) {
      if (const auto kind = kind_named(sheet)) {
        add_table(*kind, bytes, shown, sheet);
      } else {
        tell(Severity::warning, shown, "sheet '" + sheet + "' is no table of a library and is not read",
             "tables are " + kinds_in_words());
      }
    }
  }

  void add_table(LibraryTableKind kind, const std::string& bytes, const std::string& shown, const std::string& sheet) {
    const auto [first, is_new] = places_.emplace(kind, shown);
    if (!is_new) {
      tell(Severity::error, shown,
           "the library has the table '" + std::string(to_string(kind)) + "' already in " + first->second,
           "keep one of them");
      return;
    }
    auto table = read_input_table(bytes, shown, sheet, diagnostics_);
    if (table) found_.tables.push_back({kind, found_.folders.size() - 1, std::move(*table)});
  }
};

}  // namespace

std::string_view to_string(LibraryTableKind kind) {
  switch (kind) {
    case LibraryTableKind::materials: return "materials";
    case LibraryTableKind::boards: return "boards";
    case LibraryTableKind::fixings: return "fixings";
    case LibraryTableKind::windows: return "windows";
    case LibraryTableKind::lifting: return "lifting";
    case LibraryTableKind::panels: return "panels";
    case LibraryTableKind::evidence: return "evidence";
    case LibraryTableKind::people: break;
  }
  return "people";
}

LibraryFiles read_library_files(const Settings& settings, const std::filesystem::path& settings_dir,
                                const std::string& settings_name, Diagnostics& diagnostics) {
  return LibraryFileReader(settings_dir, settings_name, diagnostics).read(settings);
}

}  // namespace panel_dossier
