#include "core/publish/page/page_style.h"

#include "core/publish/drawing/palette.h"

namespace core::publish {

std::string pageStyle() {
    return paletteCss(":root") + figureCss() + R"(*{box-sizing:border-box}
body{margin:0 auto;padding:1rem;max-width:50rem;background:var(--paper);color:var(--text);
font:1rem/1.5 system-ui,"DejaVu Sans",Verdana,sans-serif;overflow-wrap:anywhere}
h1{font-size:1.6rem;line-height:1.2;margin:.5rem 0}
h2{font-size:1.2rem;margin:2.2rem 0 .6rem;padding-top:.6rem;border-top:1px solid var(--grid)}
header p{margin:.2rem 0}
p{margin:.6rem 0}
ul{margin:.6rem 0;padding-left:1.3rem}
li{margin:.25rem 0}
a{color:var(--series-1)}
.lead{font-size:1.1rem}
.quiet,.published-on,figcaption{color:var(--soft);font-size:.9rem}
.caution{border-left:.3rem solid var(--step);padding-left:.8rem}
figure{margin:1.2rem 0}
figure svg{display:block;width:100%;max-width:34rem;height:auto}
figure .wide svg{width:auto;max-width:none}
figcaption{margin:.4rem 0}
.strip img{display:block;max-width:100%;height:auto;border-radius:.3rem}
.strip p{margin:.3rem 0}
.scroll{overflow-x:auto;margin:1rem 0}
table{border-collapse:collapse;font-size:.92rem;min-width:100%}
caption{text-align:left;color:var(--soft);font-size:.9rem;padding-bottom:.4rem;
max-width:calc(100vw - 2rem)}
th,td{text-align:left;vertical-align:top;padding:.3rem .6rem .3rem 0;
border-bottom:1px solid var(--grid);overflow-wrap:normal}
td{min-width:2.5rem;max-width:22rem;overflow-wrap:break-word}
th{font-weight:600;vertical-align:bottom}
td:first-child{min-width:6rem;overflow-wrap:anywhere}
.number{text-align:right;font-variant-numeric:tabular-nums}
td.number{white-space:nowrap}
@media(max-width:30rem){table{font-size:.8rem}th,td{padding-right:.4rem}td{min-width:1rem}td:first-child{min-width:6rem}}
summary{font-size:1.1rem;font-weight:600;margin:1.6rem 0 .6rem;cursor:pointer}
@media print{body{max-width:none;padding:0;font-size:10pt}
figure,tr,.strip{break-inside:avoid}h2{break-after:avoid}
.scroll{overflow:visible}.wide svg{max-width:100%}details::details-content{content-visibility:visible;block-size:auto}}
)";
}

}  // namespace core::publish
