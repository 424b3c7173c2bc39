// SPDX-License-Identifier: GPL-3.0-or-later
#include "audio/quiet_libraries.h"

#include <dlfcn.h>
#include <fcntl.h>
#include <unistd.h>

#include <initializer_list>

namespace ringfall::audio {
namespace {

// As declared in ALSA's <alsa/error.h> and JACK's <jack/jack.h>; looked up by name, so that neither need be linked.
using AlsaHandler = void (*)(const char*, int, const char*, int, const char*, ...);
using SetAlsaHandler = int (*)(AlsaHandler);
using JackHandler = void (*)(const char*);
using SetJackHandler = void (*)(JackHandler);

void no_alsa_words(const char*, int, const char*, int, const char*, ...) {}
void no_jack_words(const char*) {}

/// A function of a library that is loaded already, else nullptr.
template <typename Function>
Function function_of(const char* library, const char* name) {
  void* handle = dlopen(library, RTLD_NOW | RTLD_NOLOAD);
  return handle == nullptr ? nullptr : reinterpret_cast<Function>(dlsym(handle, name));
}

}  // namespace

void quiet_sound_libraries() {
  if (const auto set = function_of<SetAlsaHandler>("libasound.so.2", "snd_lib_error_set_handler")) set(no_alsa_words);
  for (const char* name : {"jack_set_error_function", "jack_set_info_function"}) {
    if (const auto set = function_of<SetJackHandler>("libjack.so.0", name)) set(no_jack_words);
  }
}

QuietStandardError::QuietStandardError() : kept_(fcntl(STDERR_FILENO, F_DUPFD_CLOEXEC, 3)) {
  const int nowhere = open("/dev/null", O_WRONLY | O_CLOEXEC);
  if (kept_ >= 0 && nowhere >= 0) dup2(nowhere, STDERR_FILENO);
  if (nowhere >= 0) close(nowhere);
}

QuietStandardError::~QuietStandardError() {
  if (kept_ < 0) return;
  dup2(kept_, STDERR_FILENO);
  close(kept_);
}

}  // namespace ringfall::audio
