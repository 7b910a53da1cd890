// Finishing: pages -> complete, unsigned PDF with metadata, attachments and mended text maps.
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "core/trace/results_document.h"

namespace panel_dossier {

/// The attachment that verification reads the results from; the export and the settings are found by their hashes.
inline constexpr std::string_view kResultsAttachment = "results.json";
/// Name of the attachment by which the export is read again as the build read it.
inline constexpr std::string_view kPropertyListAttachment = "properties-read.csv";

/// Name of the attachment that names the volumes of a large dossier: CSV with columns `file`, `what`, `pages`,
/// `sha256`.
inline constexpr std::string_view kVolumesAttachment = "volumes.csv";

/// Name of the attachment with the hash of each page's content (page_list.h), which every signed file carries.
inline constexpr std::string_view kPagesAttachment = "pages.csv";

struct Attachment {
  std::string name;  ///< file name inside the PDF
  std::string mime_type;
  std::string description;
  std::string relationship;  ///< ISO 32000-2 AFRelationship: `Source`, `Data`, `Supplement`
  std::string bytes;
  std::filesystem::path file = {};  ///< in place of `bytes`: read block by block
};

/// Reads `pages`, mends every ToUnicode map, adds XMP metadata (with the hash tree root), the attachments, the list of
/// its pages and an empty signature field with room for `signature_bytes` bytes, and writes `finished`. A file that is
/// not the whole dossier is a `volume` of that title, and its metadata say so. Same input, same bytes. Throws
/// std::runtime_error naming the files and what is wrong.
void finish_dossier(const std::filesystem::path& pages, const ResultsDocument& results,
                    const std::vector<Attachment>& attachments, std::size_t signature_bytes,
                    const std::filesystem::path& finished, const std::string& volume = {});

/// The same for labels and the workshop file, which are neither signed nor carry anything: mends every ToUnicode map.
void finish_working_pages(const std::filesystem::path& pages, const std::filesystem::path& finished);

/// The hash tree's root that an XMP packet of finish_dossier states; empty when it states none.
std::string hash_tree_root_of(std::string_view xmp);

/// The title of the volume, as escaped in XML, that such a packet says the file is; empty for a whole dossier.
std::string volume_of(std::string_view xmp);

}  // namespace panel_dossier
