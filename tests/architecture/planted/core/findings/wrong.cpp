#include "core/stats/model/distributions.h"

Said<double> said{counting(shots)};
std::string why = said("One kept shot says nothing.");
std::string shots = isFew ? counted(count, "shot", "shots") : std::string{};
