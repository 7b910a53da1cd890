#include "core/pipeline/worker/channel.h"

#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <climits>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <stdexcept>

namespace panel_dossier {

namespace {

using Clock = std::chrono::steady_clock;

/// Longer than any findings; a length beyond comes of a process that writes at random.
constexpr std::uint64_t kLongestMessage = std::uint64_t{1} << 36;

constexpr std::size_t kBlock = std::size_t{1} << 20;

bool wait_until_readable(int socket, Clock::time_point until) {
  for (;;) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(until - Clock::now()).count();
    if (left < 0) return false;
    pollfd waited{socket, POLLIN, 0};
    const int ready = ::poll(&waited, 1, static_cast<int>(std::min<long long>(left + 1, INT_MAX)));
    if (ready > 0) return true;
    if (ready < 0 && errno != EINTR) return true;  // the read that follows tells
  }
}

ChannelState read_exactly(int socket, char* to, std::size_t count, Clock::time_point until) {
  while (count > 0) {
    if (!wait_until_readable(socket, until)) return ChannelState::too_late;
    const ssize_t got = ::recv(socket, to, count, 0);
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) return ChannelState::closed;
    to += got;
    count -= static_cast<std::size_t>(got);
  }
  return ChannelState::received;
}

bool write_all(int socket, const char* from, std::size_t count) {
  while (count > 0) {
    const ssize_t put = ::send(socket, from, count, MSG_NOSIGNAL);
    if (put < 0 && errno == EINTR) continue;
    if (put <= 0) return false;
    from += put;
    count -= static_cast<std::size_t>(put);
  }
  return true;
}

/// Room for the one descriptor that a message carries beside its byte.
struct DescriptorMessage {
  char byte = 0;
  iovec part{&byte, 1};
  alignas(cmsghdr) std::array<char, CMSG_SPACE(sizeof(int))> control{};
  msghdr header{};

  DescriptorMessage() {
    header.msg_iov = &part;
    header.msg_iovlen = 1;
    header.msg_control = control.data();
    header.msg_controllen = control.size();
  }
};

}  // namespace

Descriptor& Descriptor::operator=(Descriptor&& other) noexcept {
  std::swap(number_, other.number_);
  return *this;
}

Descriptor::~Descriptor() {
  if (number_ >= 0) ::close(number_);
}

bool Channel::send(std::string_view message) {
  const std::uint64_t length = message.size();
  std::array<char, sizeof length> head{};
  std::memcpy(head.data(), &length, sizeof length);
  return write_all(number(), head.data(), head.size()) && write_all(number(), message.data(), message.size());
}

ChannelState Channel::receive(std::string& message, std::chrono::milliseconds at_most) {
  const auto until = Clock::now() + at_most;
  std::uint64_t length = 0;
  std::array<char, sizeof length> head{};
  ChannelState state = read_exactly(number(), head.data(), head.size(), until);
  std::memcpy(&length, head.data(), sizeof length);
  if (state == ChannelState::received && length > kLongestMessage) state = ChannelState::closed;
  message.clear();
  // Block by block: a length that is not true costs no memory.
  while (state == ChannelState::received && message.size() < length) {
    const std::size_t have = message.size();
    const std::size_t count = static_cast<std::size_t>(std::min<std::uint64_t>(length - have, kBlock));
    message.resize(have + count);
    state = read_exactly(number(), message.data() + have, count, until);
  }
  return state;
}

bool Channel::send_descriptor(const Descriptor& handed) {
  DescriptorMessage message;
  cmsghdr* control = CMSG_FIRSTHDR(&message.header);
  control->cmsg_level = SOL_SOCKET;
  control->cmsg_type = SCM_RIGHTS;
  control->cmsg_len = CMSG_LEN(sizeof(int));
  const int number = handed.number();
  std::memcpy(CMSG_DATA(control), &number, sizeof number);
  return ::sendmsg(this->number(), &message.header, MSG_NOSIGNAL) == 1;
}

Descriptor Channel::receive_descriptor(std::chrono::milliseconds at_most) {
  if (!wait_until_readable(number(), Clock::now() + at_most)) return Descriptor();
  DescriptorMessage message;
  if (::recvmsg(number(), &message.header, MSG_CMSG_CLOEXEC) != 1) return Descriptor();
  const cmsghdr* control = CMSG_FIRSTHDR(&message.header);
  if (control == nullptr || control->cmsg_type != SCM_RIGHTS) return Descriptor();
  int number = -1;
  std::memcpy(&number, CMSG_DATA(control), sizeof number);
  return Descriptor(number);
}

std::pair<Descriptor, Descriptor> connected_pair() {
  std::array<int, 2> sockets{};
  if (::socketpair(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0, sockets.data()) != 0) {
    throw std::runtime_error("no worker can be reached: " + std::string(std::strerror(errno)));
  }
  return {Descriptor(sockets[0]), Descriptor(sockets[1])};
}

}  // namespace panel_dossier
