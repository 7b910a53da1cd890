#include "core/dossier/parts/sections.h"

namespace panel_dossier {

namespace {

void write_steps(Flow& flow) {
  flow.heading("The signature");
  flow.item(
      "With a PDF reader that shows signatures: open the signature panel. It must say that the document was not "
      "changed since it was signed, and name a signer whom you know by another way than this file.");
  flow.item("At a command line, with the general tool pdfsig: pdfsig dossier.pdf");
  flow.item(
      "With openssl: cut the bytes that ByteRange names out of the file, take the signature from Contents, and run "
      "openssl cms -verify -inform DER -binary -content BYTES -in SIGNATURE -CAfile ISSUER");
  flow.heading("The hashes");
  flow.item(
      "panel-dossier verify dossier.pdf recomputes everything from the PDF alone: the signature, the attached "
      "files, the hash of each panel and the root of the hash tree.");
  flow.item(
      "By hand: save the attached files from the PDF (for example with pdfdetach -saveall dossier.pdf) and compare "
      "the SHA-256 of the export (sha256sum FILE) with the table below.");
  flow.item("Evidence files: sha256sum FILE must give the digits printed in part 9.");
  flow.item(
      "The hash tree is that of RFC 6962, section 2.1, with SHA-256. A panel's hash, printed on its sheet, is a leaf: "
      "the hash of a zero byte, the digest of the panel's data and the digest of its findings. Going up, each pair "
      "is hashed behind a byte of value one, in the order of the schedule in part 3. The root is printed on the "
      "cover; one changed digit in one panel changes it.");
}

Cell digest_cell(HexDigest digest) {
  if (digest.empty()) return "–";
  if (digest.size() == 64) digest.insert(32, " ");
  return digest;
}

void write_files(Flow& flow, const BuildSummary& build) {
  flow.heading("What this build was made from");
  TableSpec table;
  table.columns = {{"what"}, {"file"}, {"SHA-256"}};
  table.style = type::kFine;
  table.rows.push_back({"model export", build.export_name, digest_cell(build.export_sha256)});
  if (!build.settings_sha256.empty())
    table.rows.push_back({"project settings", "", digest_cell(build.settings_sha256)});
  for (const HashedFile& file : build.settings_files)
    table.rows.push_back({"named by the settings", file.name, digest_cell(file.sha256)});
  for (const PluginSummary& plugin : build.plugins) {
    table.rows.push_back({"plugin " + plugin.id, "version " + plugin.version, digest_cell(plugin.sha256)});
    for (const HashedFile& data : plugin.data_tables)
      table.rows.push_back({"data table of " + plugin.id, data.name, digest_cell(data.sha256)});
  }
  table.rows.push_back({"hash tree root", "", digest_cell(build.hash_tree_root)});
  set_table(flow, std::move(table));
}

}  // namespace

void write_verification_guide(Book& book) {
  book.begin_part(DossierPart::verification);
  Flow& flow = book.flow;
  if (!book.results().build.signed_for_issue)
    flow.paragraph(
        "This dossier is not signed for issue. The steps below show that it was not changed, but not who "
        "answers for it.");
  write_steps(flow);
  write_files(flow, book.results().build);
}

}  // namespace panel_dossier
