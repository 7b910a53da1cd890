#include "core/intake/library/library.h"

#include <iterator>
#include <map>
#include <utility>

#include "core/intake/library/library_documents.h"
#include "core/intake/library/library_people.h"
#include "core/intake/library/library_values.h"

namespace panel_dossier {

ProjectLibrary::ProjectLibrary(const Settings& settings, const Place& place, const std::vector<PropertyRow>& rows,
                               const MaterialKinds& kinds, Diagnostics& diagnostics)
    : rows_(rows),
      files_(read_library_files(settings, place.settings_dir, place.settings_name, diagnostics)),
      products_(read_library_products(files_, rows, kinds, place.today, diagnostics)),
      parties_(read_parties(files_, diagnostics)) {
  for (const LibraryTable& source : files_.tables) {
    if (source.kind != LibraryTableKind::evidence) continue;
    Reporter report(source.table.file);
    registers_.emplace_back(source.table, files_.folders[source.in_library].folder, report);
    register_files_.push_back(source.table.file);
    Diagnostics found = report.take();
    std::move(found.begin(), found.end(), std::back_inserter(diagnostics));
  }
}

std::vector<EvidenceRegister*> ProjectLibrary::documents() {
  std::vector<EvidenceRegister*> registers;
  for (EvidenceRegister& documents : registers_) registers.push_back(&documents);
  return registers;
}

void ProjectLibrary::add_to(Project& project, Confirmations& confirmations, const std::string& export_file,
                            Diagnostics& diagnostics) {
  add_library_values(project, products_, rows_, confirmations, export_file, diagnostics);
  add_library_documents(project, documents(), files_.folders, diagnostics);
  project.parties.insert(project.parties.end(), parties_.begin(), parties_.end());
  count_unused(diagnostics);
}

void ProjectLibrary::count_unused(Diagnostics& diagnostics) const {
  struct Count {
    std::size_t unused = 0;
    std::size_t all = 0;
  };
  std::map<std::string, Count> by_file;
  for (const LibraryProduct& product : products_) {
    Count& count = by_file[product.file];
    ++count.all;
    count.unused += product.is_used ? 0 : 1;
  }
  for (std::size_t i = 0; i < registers_.size(); ++i) {
    Count& count = by_file[register_files_[i]];
    count.all += registers_[i].size();
    count.unused += registers_[i].size() - registers_[i].used();
  }
  for (const auto& [file, count] : by_file) {
    if (count.unused == 0) continue;
    diagnostics.push_back(
        {Severity::warning,
         file,
         0,
         0,
         {},
         {},
         std::to_string(count.unused) + " of " + std::to_string(count.all) + " rows serve nothing in this project",
         "nothing is to be done, if they are meant for others"});
  }
}

}  // namespace panel_dossier
