// Signatures after the first, by whoever checks and approves: each an update with a visible field that says who signs
// in which role, when and why. Private to the seal stage but for `sign_again`.
#pragma once

#include <string>
#include <string_view>

#include "core/seal/revision/increment.h"
#include "core/seal/signer.h"

class QPDF;

namespace panel_dossier {

/// What the visible field of a signature says.
struct Approval {
  std::string role;    ///< `checker`, `approver`: one to forty letters, digits, spaces and hyphens
  std::string reason;  ///< may be empty
  std::string signer;  ///< subject of the certificate
  std::string date;    ///< as in /M
};

/// So many have room on the first page.
inline constexpr int kMostApprovals = 9;

/// The objects of an update to `pdf` with one signature more, whose ByteRange and Contents (of `room` bytes) are still
/// empty; and in `signature` the number of the signature dictionary. Throws std::runtime_error when the role is of
/// another form or the page has no room.
ObjectTexts approval_objects(QPDF& pdf, const RevisionEnd& before, const Approval& approval, std::size_t room,
                             int& signature);

/// What the last signature field of the revision says. Throws std::runtime_error when it is no such field.
Approval read_approval(QPDF& pdf);

/// The dossier with a signature more. The role, the reason and the time are what the signer states. Throws
/// std::runtime_error when the bytes are no dossier that this program signed, or the signing fails.
std::string sign_again(std::string_view dossier, const Signer& signer, const std::string& role,
                       const std::string& reason, const std::string& time_utc);

}  // namespace panel_dossier
