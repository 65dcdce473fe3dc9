#include "core/image/order_over_time.h"

namespace core::image {

void sortOverTime(std::vector<cv::Mat>& pictures) {
    cv::Mat low;
    for (std::size_t end = pictures.size(); end > 1; --end) {
        for (std::size_t i = 0; i + 1 < end; ++i) {
            cv::min(pictures[i], pictures[i + 1], low);
            cv::max(pictures[i], pictures[i + 1], pictures[i + 1]);
            cv::swap(pictures[i], low);
        }
    }
}

}  // namespace core::image
