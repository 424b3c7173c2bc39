// SPDX-License-Identifier: GPL-3.0-or-later
#include "shot/clip.h"

#include "base/units.h"

namespace ringfall::shot {

double Scale::pascal_per_unit() const {
  return kReferencePressure_pa *
         db_to_amplitude(full_scale_db_spl.value_or(kNominalFullScale_db_spl));
}

double Scale::printed_offset_db() const {
  return full_scale_db_spl ? 0.0 : -kNominalFullScale_db_spl;
}

}  // namespace ringfall::shot
