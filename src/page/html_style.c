/* SPDX-License-Identifier: MIT */
/* How the page looks. Colours are named as in the palette; a file with one drawing gets them written out, for
 * programs that know no variables. No rule may contain a character that is markup. */
#include "page/parts.h"
#include "page/palette.h"

#include <string.h>

static const char *const drawing_rules[] = {
    "svg{font-family:Seravek,Ubuntu,Candara,Corbel,'Noto Sans','DejaVu Sans',sans-serif}",
    ".paper{fill:var(--paper)}",
    ".t{font-size:11px;fill:var(--ink)}.m{text-anchor:middle}.e{text-anchor:end}.soft,.name{fill:var(--soft)}",
    ".id{font-weight:700}.big{font-size:13px}.title{font-size:13px;font-weight:700}",
    ".bad{fill:var(--starved);font-weight:700}",
    ".halo{paint-order:stroke;stroke:var(--paper);stroke-width:3px;stroke-linejoin:round}",
    ".field{fill:none}.grid{stroke:var(--rule);stroke-width:1}.axis{stroke:var(--ink);stroke-width:1.2}",
    ".small .t{font-size:9.5px}",
    /* Curves: six by colour and dash, or best, worst and the rest. */
    "polyline{fill:none;stroke-linejoin:round;stroke-linecap:round}",
    ".c polyline,.sample{stroke:var(--ink);stroke-width:2.2}",
    ".k0 polyline,.k0 .sample{stroke:var(--s1)}",
    ".k1 polyline,.k1 .sample{stroke:var(--s2);stroke-dasharray:9 4}",
    ".k2 polyline,.k2 .sample{stroke:var(--s3);stroke-dasharray:2.5 4}",
    ".k3 polyline,.k3 .sample{stroke:var(--s4);stroke-dasharray:9 3 2 3}",
    ".k4 polyline,.k4 .sample{stroke:var(--s5);stroke-dasharray:14 4}",
    ".k5 polyline,.k5 .sample{stroke:var(--s6);stroke-dasharray:5 3}",
    ".k0 .dot{fill:var(--s1)}.k1 .dot{fill:var(--s2)}.k2 .dot{fill:var(--s3)}",
    ".k3 .dot{fill:var(--s4)}.k4 .dot{fill:var(--s5)}.k5 .dot{fill:var(--s6)}",
    ".faint polyline,.faint .sample{stroke:var(--pipe);stroke-width:.9;stroke-opacity:.55}",
    ".worst polyline,.worst .sample{stroke:var(--starved);stroke-width:2.8}",
    ".best polyline,.best .sample{stroke:var(--fed);stroke-width:2.6;stroke-dasharray:8 4}",
    ".core polyline,.core .sample{stroke:var(--steam);stroke-width:2.6}",
    ".chamber polyline,.chamber .sample{stroke:var(--water);stroke-width:1.6;stroke-dasharray:6 3}",
    ".target,.aim .sample{stroke:var(--ink);stroke-width:1.3;stroke-dasharray:2 3}",
    ".cool,.cooled .sample{stroke:var(--water);stroke-width:1.6;stroke-dasharray:1.5 2.5}",
    ".hold{fill:var(--steam);fill-opacity:.17}.cooling{fill:var(--water);fill-opacity:.13}",
    ".area{fill:var(--steam);fill-opacity:.22}",
    ".output polyline,.output .sample{stroke:var(--steam);stroke-width:2.4}",
    ".demand polyline,.demand .sample{stroke:var(--ink);stroke-width:1.8;stroke-dasharray:6 3}",
    ".track{fill:var(--card)}.bar{fill:var(--pipe)}.useful{fill:var(--steam)}",
    /* The plant. */
    ".wire{fill:none;stroke:var(--steam);stroke-linecap:round}",
    ".still{stroke:var(--pipe);stroke-width:2.5;stroke-dasharray:1 5}",
    ".arrow{fill:var(--ink);stroke:var(--paper);stroke-width:1}",
    ".node{fill:var(--paper);stroke:var(--ink);stroke-width:1.5}",
    ".tag{fill:var(--paper);stroke:var(--rule)}",
    ".vat{fill:var(--card);stroke:var(--ink);stroke-width:1.6}.lid{stroke:var(--ink);stroke-width:3}",
    ".level{fill:var(--steam);fill-opacity:.4}",
    ".drum{fill:var(--card);stroke:var(--ink);stroke-width:1.6}",
    ".pool{fill:var(--water);fill-opacity:.55}.flame{fill:var(--steam)}",
    ".belly{fill:none;stroke:var(--paper);stroke-width:0}",
    ".sag .belly{fill:var(--paper);stroke:var(--ink);stroke-width:1.4}.sag .pool{fill-opacity:.8}",
    ".valve .body{fill:var(--paper);stroke:var(--ink);stroke-width:1.4}.closed .body{fill:var(--ink)}",
    ".pinch .body{fill:var(--starved)}.drop{fill:var(--water)}",
    /* Verdicts. The lagging sign is dark in both schemes, for its ground is light in both. */
    ".mark{stroke:var(--paper);stroke-width:1.5}",
    ".sign{fill:none;stroke:var(--paper);stroke-width:2.6;stroke-linecap:round}",
    ".fed .mark{fill:var(--fed)}.lagging .mark{fill:var(--lagging)}.starved .mark{fill:var(--starved)}",
    ".lagging .sign{stroke:#16211d}",
    ".shut .mark{fill:var(--paper);stroke:var(--ink)}.shut .sign{stroke:var(--ink)}",
};

static const char *const page_rules[] = {
    "*{box-sizing:border-box}html{color-scheme:light dark;-webkit-text-size-adjust:100%}",
    "body{margin:0;background:var(--paper);color:var(--ink);"
    "font:1rem/1.5 Seravek,Ubuntu,Candara,Corbel,'Noto Sans','DejaVu Sans',sans-serif}",
    "header,nav,main,footer{max-width:82rem;margin:0 auto;padding:0 1.25rem}",
    ".skip{position:absolute;left:-99rem}.skip:focus{left:1rem;top:.5rem;background:var(--paper);padding:.5rem}",
    "header{padding-top:1.6rem}",
    ".brand{margin:0;color:var(--steam);font-weight:700;letter-spacing:.06em}",
    "h1{margin:.1rem 0 .3rem;font-size:clamp(1.5rem,4.5vw,2.3rem);line-height:1.15;overflow-wrap:anywhere}",
    ".facts{margin:0;color:var(--soft);max-width:62rem}",
    "nav ul{max-width:none;list-style:none;display:flex;flex-wrap:wrap;gap:.3rem 1.1rem;margin:1rem 0 0;padding:.5rem "
    "0;"
    "border-top:1px solid var(--rule);border-bottom:1px solid var(--rule)}",
    "a{color:var(--steam)}nav a{text-decoration:none;font-weight:600}nav a:hover{text-decoration:underline}",
    ":focus-visible{outline:3px solid var(--water);outline-offset:2px}",
    /* The page hangs on a pipe like the vessels: a header down the left side, a branch to each heading. */
    "main{padding-bottom:2rem}",
    "section{position:relative;padding:1.7rem 0 .2rem 1.8rem;border-left:5px solid var(--steam)}",
    "section:last-of-type{border-left-color:transparent}",
    "section:last-of-type::before{content:'';position:absolute;left:-5px;top:0;height:2.5rem;width:5px;"
    "background:var(--steam)}",
    "h2{position:relative;margin:0 0 .7rem;font-size:1.35rem;line-height:1.3}",
    "h2::before{content:'';position:absolute;left:-1.8rem;top:.72em;width:1.3rem;height:4px;margin-top:-2px;"
    "background:var(--steam)}",
    "h2::after{content:'';position:absolute;left:calc(-1.8rem - "
    "9px);top:.72em;width:13px;height:13px;margin-top:-6.5px;"
    "border-radius:50%;background:var(--paper);border:3px solid var(--steam)}",
    "h3{margin:1.2rem 0 .3rem;font-size:1.05rem}",
    "p,ul{max-width:62rem}li{margin:.25rem 0;overflow-wrap:anywhere}section p{margin:.5rem 0;overflow-wrap:anywhere}",
    ".lead{font-size:clamp(1.15rem,2.6vw,1.5rem);line-height:1.35;font-weight:600}",
    ".hint{color:var(--soft);font-size:.9rem}",
    ".tiles{list-style:none;display:grid;grid-template-columns:repeat(auto-fill,minmax(8.5rem,1fr));gap:.5rem;padding:"
    "0;"
    "margin:1rem 0 .4rem;max-width:none}",
    ".tiles li{margin:0;padding:.45rem .6rem;background:var(--card);border-radius:3px;border:1px solid var(--rule)}",
    ".tiles b{margin-left:.3rem}.tiles span{display:block;font-variant-numeric:tabular-nums;color:var(--soft)}",
    ".counts{font-weight:600}.counts .verdict{margin-right:1.1rem}.counts .sign{display:inline-block}",
    ".sign{vertical-align:-.15em;flex:none}",
    ".remedy{max-width:62rem;margin:1rem 0;padding:.2rem 1rem .6rem;background:var(--card);border-left:5px solid "
    "var(--steam)}",
    ".remedy h3{margin-top:.6rem}.what{font-weight:600}",
    "figure{margin:0;min-width:0;position:relative}svg{display:block}figure>svg{width:100%;height:auto}",
    ".cards{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,22rem),1fr));gap:1.4rem "
    "2rem;margin:.8rem 0}",
    ".cards>figure{max-width:34rem}",
    ".minis{display:grid;grid-template-columns:repeat(auto-fill,minmax(9.2rem,1fr));gap:.9rem .8rem;margin:1rem 0}",
    ".minis>figure{max-width:15rem}",
    ".sheets{display:flex;flex-wrap:wrap;gap:1.5rem 2.5rem;align-items:flex-start;margin:.8rem 0}",
    ".sheets>svg.rows{width:100%;max-width:30rem;height:auto;flex:1 1 21rem}",
    ".beside{flex:1 1 21rem;display:grid;gap:1.4rem "
    "2rem;grid-template-columns:repeat(auto-fit,minmax(min(100%,24rem),1fr))}"
    ".beside .cards{margin:0}",
    ".sheets>svg.net{max-width:none;height:auto;flex:none}",
    ".wide{overflow-x:auto;max-width:100%}",
    ".keys{list-style:none;display:flex;flex-wrap:wrap;gap:.2rem 1.2rem;padding:0;color:var(--soft);font-size:.9rem}",
    ".keys svg{display:inline-block}.keys li{display:flex;align-items:center;gap:.4rem;margin:0}",
    ".scroll{overflow-x:auto;max-width:100%;margin:.3rem 0 1.2rem}.verdict{white-space:nowrap}code{font-size:.92em}",
    "table{border-collapse:collapse;font-size:.9rem;font-variant-numeric:tabular-nums}",
    "th,td{padding:.28rem .7rem;text-align:left;vertical-align:top;border-bottom:1px solid var(--rule)}",
    "thead th{vertical-align:bottom;border-bottom:2px solid var(--ink);font-weight:600;line-height:1.2;max-width:9rem}",
    "tbody th{font-weight:600;white-space:nowrap}tbody "
    ".w{white-space:normal;min-width:11rem}td{max-width:26rem;overflow-wrap:break-word}",
    "th.n,td.n{text-align:right}td.n{white-space:nowrap}.u{display:block;font-weight:400;color:var(--soft)}",
    "td .sign,th .sign{display:inline-block}.tiles .sign{display:inline-block}",
    "#cautions ul{padding:0;list-style:none}#cautions li{padding:.5rem .9rem;margin:.5rem 0;background:var(--card);"
    "border-left:5px solid var(--lagging)}",
    "#imprint{font-size:.9rem}#imprint li{overflow-wrap:anywhere}",
    /* Only with the script. */
    ".follow{display:flex;gap:.6rem;align-items:center;flex-wrap:wrap;margin:.4rem 0 1rem}",
    ".follow select{font:inherit;min-width:0;max-width:100%;padding:.3rem "
    ".5rem;background:var(--card);color:var(--ink);border:1px solid "
    "var(--pipe)}",
    ".read{position:absolute;z-index:2;pointer-events:none;background:var(--ink);color:var(--paper);font-size:.8rem;"
    "line-height:1.35;padding:.3rem .5rem;border-radius:3px;white-space:pre;max-width:95%}",
    ".hair{stroke:var(--ink);stroke-width:1;pointer-events:none}",
    ".following .c:not(.followed){opacity:.18}.following .followed "
    "polyline{stroke-width:3.5;stroke-opacity:1;opacity:1}",
    ".following .minis figure:not(.followed){opacity:.35}.tiles .followed{outline:3px solid var(--steam)}",
    "@media (max-width:40rem){header,nav,main,footer{padding-left:.8rem;padding-right:.8rem}"
    "section{padding-left:.9rem;border-left-width:4px}h2::before{left:-.9rem;width:.6rem}"
    "h2::after{left:calc(-.9rem - 8px)}section:last-of-type::before{left:-4px;width:4px}"
    "th,td{padding:.25rem .5rem}}",
    "@media print{@page{margin:14mm 12mm}body{font-size:9.5pt}nav,.skip,.follow{display:none}",
    "header,main{padding-left:0;padding-right:0}section{padding-top:1rem;break-inside:auto}",
    "#plant{break-before:page}h2,h3,.lead{break-after:avoid}",
    "figure,.sheets>svg,tr,li,.remedy{break-inside:avoid}thead{display:table-header-group}",
    ".cards{grid-template-columns:1fr 1fr;gap:.8rem 1rem}.cards .cards,.beside .cards{display:block}",
    ".minis{grid-template-columns:repeat(5,1fr)}",
    ".sheets{display:grid;grid-template-columns:1fr 1fr;gap:.8rem 1rem}.sheets>svg.rows{max-width:100%}",
    ".sheets>svg.net{max-width:100%;height:auto;grid-column:1/-1;justify-self:start}.beside{display:contents}",
    ".scroll,.wide{overflow:visible}table{font-size:7.5pt}th,td{padding:.15rem .3rem}",
    "tbody th{white-space:normal;max-width:8.5rem;overflow-wrap:break-word}table "
    ".sign{width:1.1em;height:1.1em}a{color:inherit;text-decoration:none}}",
};

static void add_rules(const char *const *rules, size_t count, fv_text *out)
{
    for (size_t i = 0; i < count; i++)
        fv_text_add(out, "%s\n", rules[i]);
}

/* Colours in the place of var(--name). */
static void add_expanded(const char *rule, fv_text *out)
{
    const char *open;
    while ((open = strstr(rule, "var(--")) != NULL) {
        const char *name = open + strlen("var(--");
        size_t length = strcspn(name, ")");
        fv_text_add(out, "%.*s", (int)(open - rule), rule);
        for (int i = 0; i < PALETTE_COUNT; i++)
            if (strlen(page_palette[i].name) == length && strncmp(page_palette[i].name, name, length) == 0)
                fv_text_add(out, "%s", page_palette[i].light);
        rule = name + length + 1;
    }
    fv_text_add(out, "%s\n", rule);
}

void page_drawing_css(fv_text *out)
{
    for (size_t i = 0; i < sizeof drawing_rules / sizeof *drawing_rules; i++)
        add_expanded(drawing_rules[i], out);
}

void page_css(fv_text *out)
{
    fv_text_add(out, "\n:root{");
    page_palette_css(false, out);
    fv_text_add(out, "}\n@media (prefers-color-scheme:dark){:root{");
    page_palette_css(true, out);
    fv_text_add(out, "}}\n@media print{:root{");
    page_palette_css(false, out);
    fv_text_add(out, "}}\n");
    add_rules(drawing_rules, sizeof drawing_rules / sizeof *drawing_rules, out);
    add_rules(page_rules, sizeof page_rules / sizeof *page_rules, out);
}
