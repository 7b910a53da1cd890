// What makes the finished dossier an archival file: PDF/A-3, conformance level U (ISO 19005-3:2012).
#pragma once

#include <qpdf/QPDF.hh>
#include <string>

namespace panel_dossier {

/// Gives the document the output intent of its colours, sRGB (6.2.3), and names the extension of PDF 1.7 that its
/// signature's format is of. The page writer keeps the other rules; tests/seal/archival_test holds all that are relied
/// on.
void add_archival_form(QPDF& pdf);

/// The XMP description by which the file says that it is PDF/A-3u (6.6.4), with the description of the properties of
/// our own namespace that the standard asks for (6.6.2.3.3).
std::string archival_description();

}  // namespace panel_dossier
