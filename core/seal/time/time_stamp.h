// Time stamps of an authority (RFC 3161 (2001), RFC 5816 (2010)): what a token says, and whether it holds.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace panel_dossier {

/// What a token that holds says. Whether its authority is one to trust is not looked at here.
struct TimeStamp {
  std::string time_utc;                   ///< ISO 8601, whole seconds
  std::string authority;                  ///< subject of its certificate, RFC 2253 text
  std::vector<std::string> certificates;  ///< DER, the authority's first
};

/// Reads the token, DER, over `octets`. Throws std::runtime_error when it is none, is over other octets or over a weak
/// digest of them, or was not made with its certificate's key; when it does not name that certificate, when the
/// certificate has other uses than time stamps, or was not valid at the token's time.
TimeStamp read_time_stamp(std::string_view token, std::string_view octets);

}  // namespace panel_dossier
