#include "tests/core/media/clip_recipes.h"

namespace tests {

std::string movingSource(const std::string& rate, int frames) {
    return "-f lavfi -i testsrc2=size=160x120:rate=" + rate + ",noise=alls=12:allf=t -frames:v " +
           std::to_string(frames) + " ";
}

std::vector<ClipRecipe> stampedRecipes() {
    const std::string plain = movingSource("30", 60);
    const std::string ntsc = movingSource("30000/1001", 60);
    const std::string x264 = "-c:v libx264 -preset veryfast -g 20 -threads 2 ";
    const std::string x265 = "-c:v libx265 -preset ultrafast -x265-params log-level=none:pools=2:";
    // Irregular stamps in 90 kHz: steps of 3000, 3300, 2100, 6000, 1500 ticks by turns.
    const std::string variable =
        "-vf \"settb=1/90000,setpts='3180*N+120*mod(N,5)*mod(N,3)+700*mod(N,2)'\" "
        "-vsync passthrough -enc_time_base 1:90000 -video_track_timescale 90000 ";
    return {
        {"H264Mp4", "mp4", plain + x264 + "-bf 0"},
        {"H264Mp4BFrames", "mp4", ntsc + x264 + "-bf 3"},
        {"H264MovBPyramid", "mov", plain + x264 + "-bf 4 -x264-params b-pyramid=normal"},
        {"H264MkvOpenGop", "mkv", plain + x264 + "-bf 3 -x264-params open-gop=1"},
        {"H264Mp4OpenGop", "mp4", plain + x264 + "-bf 3 -x264-params open-gop=1"},
        {"H264Mp4Variable", "mp4", plain + variable + x264 + "-bf 2"},
        {"H264MkvVariable", "mkv", plain + variable + x264 + "-bf 2"},
        {"H264Avi", "avi", plain + x264 + "-bf 0"},
        {"H264Mp4High10", "mp4", plain + x264 + "-pix_fmt yuv420p10le -bf 2"},
        {"H264MkvIntraRefresh", "mkv", plain + x264 + "-bf 0 -x264-params intra-refresh=1"},
        {"H264Ts", "ts", plain + x264 + "-bf 2"},
        {"HevcMp4", "mp4", plain + x265 + "keyint=20:open-gop=0 -tag:v hvc1"},
        {"HevcMkvOpenGop", "mkv", plain + x265 + "keyint=20:open-gop=1:bframes=3"},
        {"HevcMp4OpenGop", "mp4", plain + x265 + "keyint=20:open-gop=1:bframes=3"},
        {"Mpeg4Mp4BFrames", "mp4", plain + "-c:v mpeg4 -q:v 4 -g 20 -bf 2"},
        {"Mpeg4Avi", "avi", plain + "-c:v mpeg4 -q:v 4 -g 20 -bf 0"},
        {"MjpegAvi", "avi", plain + "-c:v mjpeg -q:v 4"},
        {"MjpegAviGap", "avi",
         plain + "-vf \"select='not(between(n,10,14))'\" -vsync vfr -c:v mjpeg -q:v 4"},
        {"MjpegMov", "mov", plain + "-c:v mjpeg -q:v 4"},
        {"ProresMov", "mov", plain + "-c:v prores_ks -profile:v 1"},
        {"Vp9WebmAltRef", "webm",
         plain + "-c:v libvpx-vp9 -deadline realtime -cpu-used 8 -g 20 -auto-alt-ref 1 "
                 "-lag-in-frames 16 -b:v 500k"},
        {"Vp8WebmAltRef", "webm",
         plain + "-c:v libvpx -deadline good -cpu-used 5 -g 20 -auto-alt-ref 1 -lag-in-frames 16 "
                 "-b:v 500k"},
        {"Vp9Mp4", "mp4", plain + "-c:v libvpx-vp9 -deadline realtime -cpu-used 8 -g 20 -b:v 500k"},
        {"Ffv1Mkv", "mkv", plain + "-c:v ffv1 -g 1"},
    };
}

std::vector<ClipRecipe> unstampedRecipes() {
    const std::string plain = movingSource("30", 60);
    return {
        {"H264AviBFrames", "avi", plain + "-c:v libx264 -preset veryfast -g 20 -threads 2 -bf 3"},
        {"H264AviBFramesGap", "avi",
         plain + "-vf \"select='not(between(n,10,14))'\" -vsync vfr -c:v libx264 -preset veryfast "
                 "-g 20 -threads 2 -bf 2"},
        {"Mpeg4AviBFrames", "avi", plain + "-c:v mpeg4 -q:v 4 -g 20 -bf 2"},
        {"XvidAviPacked", "avi", plain + "-c:v libxvid -q:v 4 -g 20 -bf 2"},
    };
}

std::vector<ClipRecipe> allRecipes() {
    std::vector<ClipRecipe> all = stampedRecipes();
    for (ClipRecipe& recipe : unstampedRecipes()) {
        all.push_back(std::move(recipe));
    }
    return all;
}

}  // namespace tests
