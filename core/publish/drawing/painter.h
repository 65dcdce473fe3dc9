#pragma once

#include <memory>
#include <string>
#include <vector>

#include "core/base/pixels.h"
#include "core/base/result.h"
#include "core/publish/figures/figure.h"

namespace core::publish {

/// A figure as PNG on white paper. Errors: WriteFailed when the picture cannot be made (too large).
Result<std::string> pngOf(const Figure& figure, double dotsPerInch = 300.0);

/// A picture as PNG. Errors: WriteFailed.
Result<std::string> pngOf(PixelView picture);

/// Draws onto a picture in memory, one point a pixel. Confined. For words on films.
class PicturePainter {
public:
    PicturePainter(int width, int height);
    ~PicturePainter();
    PicturePainter(const PicturePainter&) = delete;
    PicturePainter& operator=(const PicturePainter&) = delete;

    /// Scales the picture to fill the given rectangle of this one.
    void picture(PixelView picture, PointPt topLeft, double widthPt, double heightPt);
    /// In the colours for dark ground.
    void draw(const std::vector<Drawn>& drawn);
    [[nodiscard]] PixelBuffer rgb() const;

private:
    struct Surface;
    std::unique_ptr<Surface> m_surface;
};

}  // namespace core::publish
