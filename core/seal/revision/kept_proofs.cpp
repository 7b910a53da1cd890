#include "core/seal/revision/kept_proofs.h"

#include <openssl/err.h>
#include <openssl/ocsp.h>
#include <openssl/x509.h>

#include <algorithm>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <stdexcept>

#include "core/seal/certificate.h"
#include "core/seal/certificates/pem_text.h"
#include "core/seal/file_bytes.h"

namespace panel_dossier {

namespace {

namespace fs = std::filesystem;
using Object = QPDFObjectHandle;

/// Whether all octets are one object of the type.
template <auto read, auto free_function>
bool is_whole(const std::string& octets) {
  const auto* in = reinterpret_cast<const unsigned char*>(octets.data());
  const auto* end = in + octets.size();
  auto* object = read(nullptr, &in, static_cast<long>(octets.size()));
  free_function(object);
  ERR_clear_error();
  return object != nullptr && in == end;
}

bool take_file(const fs::path& file, KeptProofs& proofs) {
  const std::string bytes = read_bytes(file);
  const PemContents contents = read_pem(bytes);
  std::vector<std::string>& lists = proofs.revocation.lists;
  proofs.certificates.insert(proofs.certificates.end(), contents.certificates.begin(), contents.certificates.end());
  lists.insert(lists.end(), contents.revocation_lists.begin(), contents.revocation_lists.end());
  if (!contents.empty()) return true;
  if (is_whole<d2i_X509, X509_free>(bytes)) {
    proofs.certificates.push_back(bytes);
  } else if (is_whole<d2i_X509_CRL, X509_CRL_free>(bytes)) {
    lists.push_back(bytes);
  } else if (is_whole<d2i_OCSP_RESPONSE, OCSP_RESPONSE_free>(bytes)) {
    proofs.revocation.responses.push_back(bytes);
  } else {
    return false;
  }
  return true;
}

std::vector<std::string> streams_of(Object store, const char* key) {
  std::vector<std::string> streams;
  Object array = store.isDictionary() ? store.getKey(key) : Object::newNull();
  if (!array.isArray()) return streams;
  for (Object item : array.aitems()) {
    if (!item.isStream()) throw std::runtime_error("the document security store holds something that is no stream");
    const auto data = item.getStreamData(qpdf_dl_generalized);
    streams.emplace_back(reinterpret_cast<const char*>(data->getBuffer()), data->getSize());
  }
  return streams;
}

/// References to what the store has under the key, and to new streams of the proofs.
std::string array_text(Object store, const char* key, const std::vector<std::string>& added, int& next,
                       ObjectTexts& objects) {
  std::string items;
  Object before = store.isDictionary() ? store.getKey(key) : Object::newNull();
  if (before.isArray()) {
    for (Object item : before.aitems()) items += item.unparse() + " ";
  }
  for (const std::string& octets : added) {
    items += std::to_string(next) + " 0 R ";
    objects[next++] = "<< /Length " + std::to_string(octets.size()) + " >>\nstream\n" + octets + "\nendstream";
  }
  return items.empty() ? std::string() : " " + std::string(key) + " [ " + items + "]";
}

}  // namespace

KeptProofs read_proof_files(const std::vector<fs::path>& files) {
  KeptProofs proofs;
  for (const fs::path& file : files) {
    std::vector<fs::path> each{file};
    if (fs::is_directory(file)) {
      each.clear();
      for (const auto& entry : fs::directory_iterator(file)) each.push_back(entry.path());
      std::sort(each.begin(), each.end());
    }
    for (const fs::path& one : each) {
      if (take_file(one, proofs)) continue;
      throw std::runtime_error("'" + one.string() + "' holds no certificate, revocation list or OCSP response");
    }
  }
  return proofs;
}

KeptProofs read_proofs(QPDF& pdf) {
  Object store = pdf.getRoot().getKey("/DSS");
  return {streams_of(store, "/Certs"), {streams_of(store, "/CRLs"), streams_of(store, "/OCSPs")}};
}

ObjectTexts proof_objects(QPDF& pdf, const RevisionEnd& before, const KeptProofs& added) {
  Object store = pdf.getRoot().getKey("/DSS");
  const int number = before.object_count;
  int next = number + 1;
  ObjectTexts objects;
  const std::string certificates = array_text(store, "/Certs", added.certificates, next, objects);
  const std::string lists = array_text(store, "/CRLs", added.revocation.lists, next, objects);
  const std::string responses = array_text(store, "/OCSPs", added.revocation.responses, next, objects);
  objects[number] = "<< /Type /DSS" + certificates + lists + responses + " >>";
  Object root = pdf.getRoot().shallowCopy();
  // The library leaves out keys whose object is not there yet.
  root.replaceKey("/DSS", Object::newNull());
  std::string text = root.unparse();
  text.insert(text.rfind(">>"), "/DSS " + std::to_string(number) + " 0 R ");
  objects[pdf.getRoot().getObjectID()] = text;
  return objects;
}

std::string keep_proofs(std::string_view dossier, const KeptProofs& added) {
  QPDF pdf;
  pdf.setSuppressWarnings(true);
  pdf.setAttemptRecovery(false);
  pdf.processMemoryFile("dossier", dossier.data(), dossier.size());
  const RevisionEnd before = revision_end(pdf, dossier);
  return std::string(dossier) + increment_text(before, proof_objects(pdf, before, added));
}

}  // namespace panel_dossier
