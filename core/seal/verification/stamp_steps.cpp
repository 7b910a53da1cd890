#include "core/seal/verification/stamp_steps.h"

#include "core/seal/verification/signature_steps.h"

namespace panel_dossier {

std::optional<TimeStamp> add_stamp_steps(StepList& steps, std::string_view revision, const SignatureFacts& facts,
                                         const std::string& whose) {
  const SignaturePlace& place = facts.place;
  steps.run(whose + "it covers the whole file", [&] { return whole_file_covered(revision, facts); });
  std::optional<TimeStamp> stamp;
  steps.run(whose + "its token is over these bytes", [&] {
    require_step(facts.sub_filter == "/ETSI.RFC3161", "its form is '" + facts.sub_filter + "'");
    const std::string token =
        cms_in_gap(revision.substr(place.contents_begin, place.contents_end - place.contents_begin));
    std::string octets(revision.substr(0, place.contents_begin));
    octets += revision.substr(place.contents_end);
    stamp = read_time_stamp(token, octets);
    return stamp->time_utc + " by '" + stamp->authority + "'";
  });
  return stamp;
}

}  // namespace panel_dossier
