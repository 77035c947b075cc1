#pragma once

namespace stringwright::codebook {

/// Light on the rear of a bifacial module as a share of the 1000 W/m² on its front: 300 W/m², the stress
/// condition, which is cautious. Source: IEC 62548-1:2023, Annex F (memory). A printed current with the
/// rear included, or a rear gain, wins over it.
inline constexpr double rear_light = 0.3;
/// The same for the bifacial nameplate irradiance, 135 W/m² (memory): no gain should be counted lower.
inline constexpr double rear_light_nameplate = 0.135;

}  // namespace stringwright::codebook
