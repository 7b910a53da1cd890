// Messages between processes of this program: each whole or not at all.
#pragma once

#include <chrono>
#include <string>
#include <string_view>
#include <utility>

namespace panel_dossier {

/// A file descriptor that is closed with its owner.
class Descriptor {
 public:
  explicit Descriptor(int number = -1) : number_(number) {}
  Descriptor(Descriptor&& other) noexcept : number_(std::exchange(other.number_, -1)) {}
  Descriptor& operator=(Descriptor&& other) noexcept;
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor();

  int number() const { return number_; }

 private:
  int number_;
};

/// Why a message did not come.
enum class ChannelState {
  received,
  closed,    ///< the other end is gone, or a message broke off
  too_late,  ///< the time is up
};

/// One end of a connected pair of sockets. One thread.
class Channel {
 public:
  explicit Channel(Descriptor socket) : socket_(std::move(socket)) {}

  /// False when the other end is gone.
  bool send(std::string_view message);

  /// Waits at most so long for a message; the time runs on while it is being received.
  ChannelState receive(std::string& message, std::chrono::milliseconds at_most);

  /// Hands a descriptor over to the process at the other end, between two messages. False when that is gone.
  bool send_descriptor(const Descriptor& handed);
  /// What `send_descriptor` handed over; -1 when the other end is gone or the time is up.
  Descriptor receive_descriptor(std::chrono::milliseconds at_most);

  /// Leaves the channel without its socket.
  Descriptor take() { return std::move(socket_); }

 private:
  Descriptor socket_;

  int number() const { return socket_.number(); }
};

/// Throws std::runtime_error with the system's reason.
std::pair<Descriptor, Descriptor> connected_pair();

}  // namespace panel_dossier
