#!/usr/bin/env bash
# Remakes the bundled fonts from Debian's fonts-inter: apt-get install fonts-inter python3-fonttools
# What is changed and why:
#   - a family name of our own ("Likeleaf Sans"), so that an installed font of the old name never takes its place;
#   - figures of equal width by default: Qt 6.4 cannot ask a font for them, and every column of figures needs them;
#   - no contextual alternates (calt): glyphs that only they produce have no character behind them, and a PDF would
#     then lose minus signs and dashes when its text is copied;
#   - Latin with Vietnamese, Greek, punctuation, arrows, mathematical signs, shapes and ticks only, which halves the size.
# Time stamps are those of the source, so that the same source gives the same bytes.
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")"
source_dir=${INTER_DIR:-/usr/share/fonts/opentype/inter}
python=${PYTHON:-/usr/bin/python3}
[ -f "$source_dir/Inter-Regular.otf" ] || { echo "make.sh: no Inter-Regular.otf in $source_dir (Debian: fonts-inter)" >&2; exit 1; }
"$python" -c 'import fontTools' 2>/dev/null || { echo "make.sh: python3-fonttools is missing" >&2; exit 1; }

"$python" - "$source_dir" <<'PYTHON'
import sys
from fontTools import subset
from fontTools.ttLib import TTFont

FAMILY, POSTSCRIPT = "Likeleaf Sans", "LikeleafSans"
RANGES = [(0x20, 0x24F), (0x300, 0x36F), (0x370, 0x3FF), (0x1E00, 0x1EFF), (0x2000, 0x209F), (0x20A0, 0x20BF),
          (0x2100, 0x214F), (0x2190, 0x21FF), (0x2200, 0x22FF), (0x25A0, 0x25FF), (0x26A0, 0x26A1), (0x2713, 0x2718),
          (0xFFFD, 0xFFFD)]

def equal_width_figures(font):
    """Points the characters 0 to 9 at the glyphs that the feature tnum would choose."""
    gsub = font["GSUB"].table
    tabular = {}
    for record in gsub.FeatureList.FeatureRecord:
        if record.FeatureTag == "tnum":
            for index in record.Feature.LookupListIndex:
                for table in gsub.LookupList.Lookup[index].SubTable:
                    tabular.update(getattr(table, "ExtSubTable", table).mapping)
    for table in font["cmap"].tables:
        for code in range(0x30, 0x3A):
            if code in table.cmap:
                table.cmap[code] = tabular.get(table.cmap[code], table.cmap[code])  # tables may share one map

def rename(font, style):
    names = font["name"]
    names.names = [n for n in names.names if n.nameID in (0, 5, 7, 8, 9, 11, 12, 13, 14)]
    version = names.getDebugName(5)
    for name_id, text in ((1, FAMILY), (2, style), (3, f"{POSTSCRIPT}-{style}: changed from Inter, {version}"),
                          (4, f"{FAMILY} {style}"), (6, f"{POSTSCRIPT}-{style}")):
        names.setName(text, name_id, 3, 1, 0x409)
    cff = font["CFF "].cff
    cff.fontNames = [f"{POSTSCRIPT}-{style}"]
    cff.topDictIndex[0].FamilyName = FAMILY
    cff.topDictIndex[0].FullName = f"{FAMILY} {style}"

for style in ("Regular", "Medium", "SemiBold", "Bold"):
    font = TTFont(f"{sys.argv[1]}/Inter-{style}.otf", recalcTimestamp=False)
    equal_width_figures(font)
    options = subset.Options()
    options.layout_features = ["kern", "mark", "mkmk", "ccmp"]
    options.name_IDs = ["*"]
    options.notdef_outline = True
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=[c for first, last in RANGES for c in range(first, last + 1)])
    cutter.subset(font)
    rename(font, style)
    font.save(f"{POSTSCRIPT}-{style}.otf")
    print(f"{POSTSCRIPT}-{style}.otf: {len(font.getGlyphOrder())} glyphs")
PYTHON
