// The logical structure of a file (ISO 32000-2:2020, 14.7), written behind what the PDF library makes of its pages.
// Private to the seal stage.
#pragma once

#include <filesystem>
#include <optional>
#include <qpdf/QPDFObjGen.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <vector>

#include "core/dossier/layout/structure.h"

class QPDF;
class QPDFWriter;

namespace panel_dossier {

/// Elements are nine of ten objects of a dossier. Each is a line of text here and never an object of the PDF library,
/// which would take 2 kB for it.
class TaggedStructure {
 public:
  /// Takes the tree that waits in the catalog (kWaitingStructure) out of the document and leaves
  /// the place of its root. Throws std::runtime_error when it waits in another form.
  explicit TaggedStructure(QPDF& pdf);

  /// Once `writer` has written `file`: adds elements and parent tree. Nothing where no tree waited. Throws
  /// std::runtime_error naming the file when it cannot be written.
  void append(const std::filesystem::path& file, QPDFWriter& writer) const;

 private:
  std::optional<StructureTree> tree_;
  QPDFObjectHandle root_;
  std::vector<QPDFObjGen> pages_;        ///< in their order
  std::vector<QPDFObjGen> annotations_;  ///< by their number in the tree
};

}  // namespace panel_dossier
