// Time stamps asked of a server (RFC 3161 (2001), 3.4).
#pragma once

#include <memory>
#include <string>
#include <string_view>

namespace panel_dossier {

/// Gives a token that proves when the octets existed.
class TimeStamper {
 public:
  virtual ~TimeStamper() = default;
  /// The token over the octets, DER, at most `kMostTokenBytes`. Takes as long as the network. Throws
  /// std::runtime_error saying what failed.
  virtual std::string token(std::string_view octets) const = 0;
};

inline constexpr std::size_t kMostTokenBytes = 16384;

/// Of the server at that URL (`http://HOST[:PORT][/PATH]`), asked by HTTP POST. What it answers is believed only if it
/// is over these octets and this question, is signed with a certificate for time stamps alone, and tells the time of
/// this machine's clock within five minutes. It is asked again until the timeout when it cannot be reached. Throws
/// std::runtime_error for another URL.
std::unique_ptr<TimeStamper> time_stamp_server(const std::string& url, int timeout_s = 30);

}  // namespace panel_dossier
