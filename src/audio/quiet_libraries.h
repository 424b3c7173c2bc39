// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace ringfall::audio {

/// Stops the libraries under PortAudio (ALSA, JACK) from writing their trials and errors, some 80 lines, to standard error:
/// what matters comes back as an error code. Does nothing where they are not loaded.
void quiet_sound_libraries();

/// PortAudio itself writes lines to standard error that no setting stops. While one of these lives, what anyone in the process
/// writes there goes nowhere. Made and destroyed in turn like brackets, not by several threads at once.
class QuietStandardError {
 public:
  QuietStandardError();
  ~QuietStandardError();
  QuietStandardError(const QuietStandardError&) = delete;
  QuietStandardError& operator=(const QuietStandardError&) = delete;
  /// Standard error as it was: what is to be said all the same goes there. -1: it could not be set aside and is as it was.
  int kept_aside() const { return kept_; }

 private:
  int kept_ = -1;
};

}  // namespace ringfall::audio
