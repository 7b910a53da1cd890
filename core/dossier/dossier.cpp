#include "core/dossier/dossier.h"

#include <algorithm>
#include <numeric>
#include <stdexcept>
#include <utility>

#include "core/dossier/layout/pdf_document.h"
#include "core/dossier/parts/panel_volumes.h"
#include "core/dossier/parts/sections.h"
#include "core/trace/open_points.h"

namespace panel_dossier {

namespace {

constexpr const char* kMainFile = "dossier.pdf";

void require_matching_panels(const DossierContent& content) {
  const auto& panels = content.project.panels;
  const auto& results = content.results.panels;
  bool match = panels.size() == results.size();
  for (std::size_t i = 0; match && i < panels.size(); ++i) match = panels[i].global_id == results[i].global_id;
  if (!match) throw std::logic_error("the results do not list the project's panels in the project's order");
}

/// Writes the files of one dossier, those first whose pages the others name: the annex, then the panels, then the rest.
class DossierWriter {
 public:
  DossierWriter(const DossierContent& content, const DossierFonts& fonts, const DossierProgress& progress)
      : content_(content),
        fonts_(fonts),
        progress_(progress),
        silent_(disciplines_without_result(content.results)),
        annex_(content.results,
               [this](const RecordedFinding& finding) {
                 return !is_silent(finding) && !(finding.verdict == Verdict::information &&
                                                 is_for_workshop(content_.results.build, finding.check));
               }),
        total_(content.results.panels.size() + content.results.build.plugins.size()),
        panel_pages_(content.results.panels.size()) {}

  std::vector<PanelPage> take_panel_pages() { return std::move(panel_pages_); }

  void write_whole(const std::filesystem::path& file) {
    std::vector<std::size_t> panels(content_.results.panels.size());
    std::iota(panels.begin(), panels.end(), 0);
    write(file, kMainFile, [&](Book& book) {
      write_front(book);
      write_panels(book, panels, tick());
      write_back(book);
      book.pdf.page_labels(book.pdf.page_count(), false, "A");
      write_annex(book, tick());
    });
  }

  void write_in_volumes(const std::filesystem::path& file, const std::vector<PanelVolume>& panels,
                        const VolumeSink& sink) {
    volume({"dossier-annex.pdf", std::string(part_title(DossierPart::annex)), 0, {}}, file, "A", sink,
           [&](Book& book) { write_annex(book, tick()); });
    for (std::size_t i = 0; i < panels.size(); ++i) {
      const std::string number = std::to_string(i + 1);
      volume({"dossier-panels-" + number + ".pdf", "Panels: " + panels[i].title, 0, {}}, file, "P" + number + ".", sink,
             [&](Book& book) { write_panels(book, panels[i].panels, tick()); });
    }
    write(file, kMainFile, [&](Book& book) {
      write_front(book);
      write_volumes(book);
      write_back(book);
    });
  }

 private:
  const DossierContent& content_;
  const DossierFonts& fonts_;
  const DossierProgress& progress_;
  std::vector<std::string> silent_;
  AnnexIndex annex_;
  std::size_t total_;
  std::size_t done_ = 0;
  PageLabels elsewhere_;  // of the anchors of the volumes written so far
  std::vector<DossierVolume> volumes_;
  std::vector<PanelPage> panel_pages_;

  void note_panel_pages(const PdfDocument& pdf, const std::string& file) {
    for (std::size_t i = 0; i < panel_pages_.size(); ++i) {
      const auto page = pdf.anchor_page(panel_anchor(content_.results.panels[i].global_id));
      if (page) panel_pages_[i] = {file, pdf.page_label(*page).first, *page + 1};
    }
  }

  bool is_silent(const RecordedFinding& finding) const {
    return std::find(silent_.begin(), silent_.end(), discipline_of(finding.check)) != silent_.end();
  }

  DossierTick tick() {
    return [this] {
      if (progress_) progress_(++done_, total_);
    };
  }

  static void write_front(Book& book) {
    book.pdf.page_labels(0, true);
    write_cover(book);
    write_contents(book);
    book.pdf.page_labels(book.pdf.page_count(), false);
    write_introduction(book);
    write_outcome(book);
    write_building(book);
    write_types(book);
  }

  static void write_back(Book& book) {
    write_maintenance(book);
    write_safety_file(book);
    write_fire_information(book);
    write_evidence_register(book);
    write_open_points(book);
    write_changes(book);
    write_verification_guide(book);
  }

  /// `name` is that of the file which will be made of the pages. Returns their number.
  template <typename Parts>
  std::size_t write(const std::filesystem::path& file, const std::string& name, const Parts& parts) {
    PdfDocument pdf(fonts_, elsewhere_);
    Flow flow(pdf);
    Book book{pdf, flow, content_, silent_, annex_, volumes_, false};
    pdf.information("Panel dossier: " + content_.results.project.name,
                    "Handover dossier of factory-made insulated timber cassette panels",
                    content_.results.build.time_utc);
    parts(book);
    write_furniture(book);
    pdf.save(file);
    elsewhere_.merge(pdf.labels_of_anchors());
    note_panel_pages(pdf, name);
    return pdf.page_count();
  }

  template <typename Parts>
  void volume(DossierVolume volume, const std::filesystem::path& file, const std::string& prefix,
              const VolumeSink& sink, const Parts& parts) {
    const std::filesystem::path pages = file.parent_path() / ("pages-of-" + volume.file);
    volume.pages = write(pages, volume.file, [&](Book& book) {
      book.pdf.page_labels(0, false, prefix);
      parts(book);
    });
    volume.sha256 = sink(pages, volume);
    volumes_.push_back(std::move(volume));
  }
};

}  // namespace

std::vector<PanelPage> write_dossier(const DossierContent& content, const DossierFonts& fonts,
                                     const std::filesystem::path& file, const DossierProgress& progress,
                                     const VolumeSink& sink) {
  require_matching_panels(content);
  DossierWriter writer(content, fonts, progress);
  const std::size_t most = most_panels_of_volume(content.settings);
  if (!sink || content.results.panels.size() <= most) {
    writer.write_whole(file);
  } else {
    writer.write_in_volumes(file, panel_volumes(content.project, most), sink);
  }
  return writer.take_panel_pages();
}

void write_workshop(const DossierContent& content, const DossierFonts& fonts, const std::filesystem::path& file) {
  require_matching_panels(content);
  const std::vector<std::string> silent;
  const std::vector<DossierVolume> volumes;
  const AnnexIndex annex(content.results, [&content](const RecordedFinding& finding) {
    return is_for_workshop(content.results.build, finding.check);
  });
  PdfDocument pdf(fonts);
  Flow flow(pdf);
  Book book{pdf, flow, content, silent, annex, volumes, true};
  pdf.information("Workshop file: " + content.results.project.name,
                  "Cutting, assembly, loads, programme and costs of factory-made insulated timber cassette panels",
                  content.results.build.time_utc);
  pdf.page_labels(0, false);
  write_workshop_front(book);
  write_workshop_checks(book);
  write_furniture(book);
  pdf.save(file);
}

}  // namespace panel_dossier
