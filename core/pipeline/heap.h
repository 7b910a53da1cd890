// How this process and those it forks keep memory that they have no use for.
#pragma once

namespace panel_dossier {

/// To be called first: whatever is large goes back to the system as soon as it is freed, also after larger things were.
void keep_heap_small();

/// Gives what is free back to the system. For the ends of stages: it looks through the whole heap.
void give_back_memory();

}  // namespace panel_dossier
