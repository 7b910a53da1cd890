// How to read the dossier, and how to verify it.

#include "core/dossier/layout/marks.h"
#include "core/dossier/parts/sections.h"
#include "core/dossier/parts/upkeep/people_and_status.h"

namespace panel_dossier {

namespace {

void write_verdicts(Flow& flow) {
  flow.heading("Verdicts");
  flow.paragraph("Each finding ends in one of five verdicts. A mark stands before the word on every page.");
  TableSpec table;
  table.columns = {{"verdict"}, {"meaning"}, {"what to do"}};
  table.rows = {
      {verdict_cell(Verdict::pass), "The value keeps the limit of the clause named beside it.", "Nothing."},
      {verdict_cell(Verdict::fail), "The value does not keep the limit.",
       "Change the design or agree another way with the responsible engineer; then build the dossier again."},
      {verdict_cell(Verdict::evidence_needed),
       "The claim needs a document (test report, declaration, certificate) that is missing, cannot be read or does not "
       "cover this panel.",
       "Supply the document named in the finding."},
      {verdict_cell(Verdict::not_assessed),
       "An input is missing, implausible or contradicted by another source, so nothing was "
       "calculated that could count. No value was guessed.",
       "Supply, correct or confirm the input named in the finding."},
      {verdict_cell(Verdict::information), "A value without a limit, such as a mass or an area.", "Nothing."}};
  set_table(flow, std::move(table));
}

void write_bases(Flow& flow) {
  flow.heading("What a finding rests on");
  TableSpec table;
  table.columns = {{"basis"}, {"meaning"}};
  table.rows = {
      {"calculation", "Worked out from the panel's data by the clause named; every input and step is printed."},
      {"test evidence", "Shown by a test report in the evidence register, within its field of application."},
      {"declared",
       "Taken over from a declaration of the manufacturer or of the model, not checked by "
       "calculation."}};
  set_table(flow, std::move(table));
  flow.paragraph("A classification by calculation never outranks a test report.");
}

void write_tracing(Flow& flow) {
  flow.heading("How a figure traces back");
  flow.item("Any figure in parts 2 to 4 leads to the pages of a panel in part 5.");
  flow.item(
      "The second page of the panel lists every finding with value, limit and verdict, and the page of its "
      "derivation in the annex. Equal derivations are printed there once, with the panels that they serve.");
  flow.item(
      "A source in the annex is a line of the model export (entity or property, GlobalId and line number), a row of a "
      "data table with its published source, or a key of the project settings. Settings are listed as assumptions in "
      "part 10.");
  flow.item(
      "Each panel has a hash over its data and findings; the root over all panels is printed on the cover and "
      "in short form on every page. Part 12 tells how to check them.");
}

void write_conventions(Flow& flow) {
  flow.heading("Conventions");
  flow.item("Lengths are in millimetres on drawings; values carry their unit. Decimal point, no digit grouping.");
  flow.item(
      "Elevations and sections show the panel seen from inside, the inner face at the bottom of a section. "
      "Drawings are to the scale stated when the page is printed on A4 at 100 %.");
  flow.item(
      "Utilisation is the share of the limit that is used; 1.00 is the limit itself. A dash means there is none.");
  flow.item("Characters that the typeface lacks are printed as \uFFFD; the attached data hold them unchanged.");
}

}  // namespace

void write_introduction(Book& book) {
  book.begin_part(DossierPart::introduction);
  Flow& flow = book.flow;
  flow.paragraph(
      "This is the handover dossier of the panels of one project. It was written by a program from the model export, "
      "the project settings and the evidence files, all named in parts 9 and 12. Nothing in it was typed by hand; "
      "whoever has the same inputs can produce the same pages again.");
  write_status(book);
  write_parties(book);
  write_duties(book);
  write_verdicts(flow);
  write_bases(flow);
  write_tracing(flow);
  write_conventions(flow);
  flow.heading("Limits of this dossier");
  flow.paragraph(
      "It supports a competent person and replaces none. Structural, fire and lifting figures are for checking by the "
      "project's engineers, under the codes in force at the place of the building. Where a finding and a code or the "
      "judgement of the responsible engineer differ, the code and the engineer come first.");
}

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
      "panel-dossier verify dossier.pdf --trust CERTIFICATE recomputes everything from the PDF alone: the signatures, "
      "the "
      "attached files, the pages, the hash of each panel and the root of the hash tree; and says whether the signer is "
      "one whose certificate you have by another way than this file.");
  flow.item(
      "By hand: save the attached files from the PDF (for example with pdfdetach -saveall dossier.pdf) and compare "
      "the SHA-256 of the export (sha256sum FILE) with the table below.");
  flow.item("Evidence files: sha256sum FILE must give the digits printed in part 9.");
  flow.item(
      "The hash tree is that of RFC 6962, section 2.1, with SHA-256. A panel's hash, printed on its second page, is a "
      "leaf: "
      "the hash of a zero byte, the digest of the panel's data and the digest of its findings, which name their "
      "derivations by digest. Going up, each pair is hashed behind a byte of value one, in the order of the schedule "
      "in part 3. The last leaf is the "
      "findings of the project as a whole. The root is printed on the "
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
