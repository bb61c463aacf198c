"""Draws the pictures of the demo works into a folder: `draw.py FOLDER`. Same bytes every time."""
import sys
from pathlib import Path

import shop
from pictures import birds, block, boats, harbour, land, paper, pelican, photos, plants, scraps, shore, table

PICTURES = {
    "plumb-1928.svg": pelican.plumb_1928,
    "plumb-1930.svg": pelican.plumb_1930,
    "plumb-1931.svg": pelican.plumb_1931,
    "plumb-1936.svg": pelican.plumb_1936,
    "plumb-ours.svg": pelican.plumb_ours,
    "kettle-1945.svg": table.kettle,
    "loaf-1950.svg": table.harvest_loaf,
    "teapot-1955.svg": table.teapot,
    "light-1963.svg": harbour.lighthouse_1963,
    "light-1964.svg": harbour.lighthouse_1964,
    "hare-1977.svg": birds.hare_vane,
    "goose-1985.svg": birds.goose,
    "herring-label.svg": table.herring_label,
    "anchor-chapbook.svg": harbour.anchor_chapbook,
    "anchor-tracing.svg": harbour.anchor_tracing,
    "gull-nickname.svg": harbour.bollard_gull,
    "tug-poster.svg": boats.tug_poster,
    "oysters-poster.svg": table.oysters,
    "brig-engraving.svg": boats.brig_engraving,
    "brig-restored.svg": boats.brig_restored,
    "bay-poster.svg": boats.bay_poster,
    "gables.svg": land.gables,
    "botijo.svg": table.botijo,
    "agave.svg": plants.agave,
    "dory.svg": boats.dory,
    "net-loft.svg": shore.net_loft,
    "cranes.svg": birds.cranes,
    "ketches.png": photos.ketches,
    "oystercatcher.svg": birds.oystercatcher,
    "mill-print.svg": land.mill_tile,
    "stern-rose.svg": land.stern_rose,
    "sea-holly.svg": plants.sea_holly,
    "sea-holly-scan.png": photos.holly_scan,
    "ferry-1924.svg": shore.ferry_1924,
    "ferry-1986.svg": shore.ferry_1986,
    "ropewalk-letter.svg": paper.ropewalk,
    "shanty.svg": paper.song_sheet,
    "otter.svg": birds.otter,
    "swans-192x.svg": birds.swans,
    "fair-bill.svg": land.fair_tent,
    "bell-bill.svg": scraps.bell,
    "moon-mast.svg": scraps.moon_mast,
    "harbour-chart.svg": shore.chart,
    "ram-figurehead.svg": land.ram_figurehead,
    "ram-photo.png": photos.ram_photo,
    "cypresses.svg": plants.cypresses,
    "currach.svg": shore.currach,
}


def picture(name, title):
    """Bytes of one picture; KeyError when the name is not one of PICTURES."""
    drawn = PICTURES[name]()
    return drawn if isinstance(drawn, bytes) else block.svg(drawn, title).encode()


def draw(folder):
    """The paths of all pictures, written into ``folder`` (made if missing), in the order of the works."""
    folder = Path(folder)
    folder.mkdir(parents=True, exist_ok=True)
    paths = []
    for work in shop.load(Path(__file__).parent)["works"]:
        path = folder / work["picture"]
        path.write_bytes(picture(work["picture"], work["facts"]["title"]))
        paths.append(path)
    return paths


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit("usage: draw.py FOLDER")
    print(f"{len(draw(sys.argv[1]))} pictures drawn.")
