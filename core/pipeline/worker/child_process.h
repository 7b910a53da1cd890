// A process of its own for code that may crash, hang, exit or eat the machine's memory.
#pragma once

#include <sys/types.h>

#include <cstddef>
#include <functional>
#include <string>

#include "core/pipeline/worker/channel.h"

namespace panel_dossier {

/// A child and the way to it.
struct Child {
  pid_t process = -1;
  Channel channel;
};

/// Forks a child that runs `serve` with its end of a channel and then ends. It keeps no other descriptor than that and
/// standard error, to which its standard output goes too; it dies with the thread that made it; signals have their
/// usual effect in it; it may take `memory_bytes` more than its parent has (0: as much as there is). Only to be called
/// while the process has no other thread that holds a lock. Throws std::runtime_error with the system's reason.
Child fork_child(const std::function<void(Channel&)>& serve, std::size_t memory_bytes);

/// What waitpid says of a child that ended: `ended with status 0`, `was killed by signal 11 (Segmentation fault)`.
std::string end_in_words(int wait_status);

/// Ends the child if it does not end by itself within a second, or at once, and gives what waitpid says.
int end_child(pid_t process, bool at_once);

}  // namespace panel_dossier
