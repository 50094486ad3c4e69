// Starting libvips once, in the way strangers' files ask for. Internal to photo.
#pragma once

namespace farflung::photo {

/// Starts libvips on first use: loaders not meant for strangers' files are blocked, nothing is cached between files.
/// False where it cannot be started.
bool vips_ready();

}  // namespace farflung::photo
