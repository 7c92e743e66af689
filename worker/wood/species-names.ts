/**
 * What the woods are called, one row each: the trade's name, the botanical name, and what the trade also says (from
 * memory; each of these names leads to one wood only). Apart from the figures, so that the sidebar carries names alone.
 */
export const speciesNameTable = `
key                        | name                       | botanical                   | also called
red-alder                  | red alder                  | Alnus rubra                 | alder
black-ash                  | black ash                  | Fraxinus nigra              | brown ash
green-ash                  | green ash                  | Fraxinus pennsylvanica      |
oregon-ash                 | Oregon ash                 | Fraxinus latifolia          |
white-ash                  | white ash                  | Fraxinus americana          | ash, American ash
quaking-aspen              | quaking aspen              | Populus tremuloides         | aspen
american-basswood          | American basswood          | Tilia americana             | basswood, linden, lime
american-beech             | American beech             | Fagus grandifolia           | beech
paper-birch                | paper birch                | Betula papyrifera           | white birch
sweet-birch                | sweet birch                | Betula lenta                | black birch, cherry birch
yellow-birch               | yellow birch               | Betula alleghaniensis       |
yellow-buckeye             | yellow buckeye             | Aesculus flava              | buckeye
butternut                  | butternut                  | Juglans cinerea             | white walnut
black-cherry               | black cherry               | Prunus serotina             | cherry, American cherry
american-chestnut          | American chestnut          | Castanea dentata            | chestnut
eastern-cottonwood         | eastern cottonwood         | Populus deltoides           | cottonwood
american-elm               | American elm               | Ulmus americana             | white elm
rock-elm                   | rock elm                   | Ulmus thomasii              |
slippery-elm               | slippery elm               | Ulmus rubra                 | red elm
hackberry                  | hackberry                  | Celtis occidentalis         |
pecan                      | pecan                      | Carya illinoinensis         | pecan hickory, hickory pecan
mockernut-hickory          | mockernut hickory          | Carya alba                  |
pignut-hickory             | pignut hickory             | Carya glabra                |
shagbark-hickory           | shagbark hickory           | Carya ovata                 |
shellbark-hickory          | shellbark hickory          | Carya laciniosa             |
american-holly             | American holly             | Ilex opaca                  | holly
honeylocust                | honeylocust                | Gleditsia triacanthos       | honey locust
black-locust               | black locust               | Robinia pseudoacacia        | locust, robinia, false acacia
pacific-madrone            | Pacific madrone            | Arbutus menziesii           | madrone
cucumbertree               | cucumbertree               | Magnolia acuminata          | cucumber magnolia, cucumber tree
southern-magnolia          | southern magnolia          | Magnolia grandiflora        |
bigleaf-maple              | bigleaf maple              | Acer macrophyllum           | western maple, Oregon maple
black-maple                | black maple                | Acer nigrum                 |
red-maple                  | red maple                  | Acer rubrum                 | soft maple
silver-maple               | silver maple               | Acer saccharinum            |
hard-maple                 | hard maple                 | Acer saccharum              | sugar maple, rock maple
northern-red-oak           | northern red oak           | Quercus rubra               | RO, red oak, eastern red oak
black-oak                  | black oak                  | Quercus velutina            |
pin-oak                    | pin oak                    | Quercus palustris           |
scarlet-oak                | scarlet oak                | Quercus coccinea            |
southern-red-oak           | southern red oak           | Quercus falcata             |
white-oak                  | white oak                  | Quercus alba                | WO
bur-oak                    | bur oak                    | Quercus macrocarpa          |
chestnut-oak               | chestnut oak               | Quercus prinus              |
live-oak                   | live oak                   | Quercus virginiana          |
persimmon                  | persimmon                  | Diospyros virginiana        | American persimmon
sassafras                  | sassafras                  | Sassafras albidum           |
sweetgum                   | sweetgum                   | Liquidambar styraciflua     | red gum, gum
american-sycamore          | American sycamore          | Platanus occidentalis       | sycamore
tanoak                     | tanoak                     | Lithocarpus densiflorus     | tan oak
black-tupelo               | black tupelo               | Nyssa sylvatica             | tupelo, black gum
water-tupelo               | water tupelo               | Nyssa aquatica              | water gum
black-walnut               | black walnut               | Juglans nigra               | walnut, American walnut, eastern black walnut
black-willow               | black willow               | Salix nigra                 | willow
yellow-poplar              | yellow-poplar              | Liriodendron tulipifera     | poplar, tulip poplar, tulipwood, tulip tree
baldcypress                | baldcypress                | Taxodium distichum          | cypress, bald cypress
alaska-yellow-cedar        | Alaska yellow cedar        | Chamaecyparis nootkatensis  | Alaska cedar, yellow cedar
atlantic-white-cedar       | Atlantic white cedar       | Chamaecyparis thyoides      |
eastern-red-cedar          | eastern red cedar          | Juniperus virginiana        | aromatic cedar, aromatic red cedar
incense-cedar              | incense cedar              | Calocedrus decurrens        |
northern-white-cedar       | northern white cedar       | Thuja occidentalis          | white cedar
port-orford-cedar          | Port-Orford cedar          | Chamaecyparis lawsoniana    |
western-red-cedar          | western red cedar          | Thuja plicata               |
coast-douglas-fir          | coast Douglas-fir          | Pseudotsuga menziesii       | Douglas-fir, Doug fir, Oregon pine
interior-north-douglas-fir | interior north Douglas-fir | Pseudotsuga menziesii       | interior Douglas-fir
balsam-fir                 | balsam fir                 | Abies balsamea              |
grand-fir                  | grand fir                  | Abies grandis               |
noble-fir                  | noble fir                  | Abies procera               |
white-fir                  | white fir                  | Abies concolor              |
eastern-hemlock            | eastern hemlock            | Tsuga canadensis            |
western-hemlock            | western hemlock            | Tsuga heterophylla          |
western-larch              | western larch              | Larix occidentalis          | larch
eastern-white-pine         | eastern white pine         | Pinus strobus               | white pine, northern white pine
loblolly-pine              | loblolly pine              | Pinus taeda                 |
lodgepole-pine             | lodgepole pine             | Pinus contorta              |
longleaf-pine              | longleaf pine              | Pinus palustris             |
ponderosa-pine             | ponderosa pine             | Pinus ponderosa             | western yellow pine
red-pine                   | red pine                   | Pinus resinosa              | Norway pine
shortleaf-pine             | shortleaf pine             | Pinus echinata              |
slash-pine                 | slash pine                 | Pinus elliottii             |
sugar-pine                 | sugar pine                 | Pinus lambertiana           |
virginia-pine              | Virginia pine              | Pinus virginiana            |
western-white-pine         | western white pine         | Pinus monticola             | Idaho white pine
old-growth-redwood         | old-growth redwood         | Sequoia sempervirens        |
young-growth-redwood       | young-growth redwood       | Sequoia sempervirens        | redwood, second-growth redwood, California redwood
engelmann-spruce           | Engelmann spruce           | Picea engelmannii           |
red-spruce                 | red spruce                 | Picea rubens                |
sitka-spruce               | Sitka spruce               | Picea sitchensis            |
tamarack                   | tamarack                   | Larix laricina              | eastern larch
mahogany                   | mahogany                   | Swietenia macrophylla       | true mahogany, genuine mahogany, Honduran mahogany, Honduras mahogany, big-leaf mahogany, American mahogany
african-mahogany           | African mahogany           | Khaya spp.                  | khaya
sapele                     | sapele                     | Entandrophragma cylindricum | sapelli, sapele mahogany
teak                       | teak                       | Tectona grandis             | Burmese teak
iroko                      | iroko                      | Milicia excelsa             |
afrormosia                 | afrormosia                 | Pericopsis elata            | African teak
spanish-cedar              | Spanish-cedar              | Cedrela odorata             | cedro
purpleheart                | purpleheart                | Peltogyne spp.              | amaranth
brazilian-rosewood         | Brazilian rosewood         | Dalbergia nigra             |
indian-rosewood            | Indian rosewood            | Dalbergia latifolia         | East Indian rosewood, sonokeling
jatoba                     | jatoba                     | Hymenaea courbaril          | courbaril, Brazilian cherry
ipe                        | ipe                        | Handroanthus/Tabebuia       | lapacho, Brazilian walnut
limba                      | limba                      | Terminalia superba          | korina, black limba, white limba
obeche                     | obeche                     | Triplochiton scleroxylon    | ayous, wawa
okoume                     | okoume                     | Aucoumea klaineana          | gaboon
avodire                    | avodire                    | Turraeanthus africanus      |
andiroba                   | andiroba                   | Carapa guianensis           | crabwood
ramin                      | ramin                      | Gonystylus bancanus         |
primavera                  | primavera                  | Tabebuia donnell-smithii    | white mahogany
jelutong                   | jelutong                   | Dyera costulata             |
jarrah                     | jarrah                     | Eucalyptus marginata        |
karri                      | karri                      | Eucalyptus diversicolor     |
parana-pine                | parana pine                | Araucaria angustifolia      |
balsa                      | balsa                      | Ochroma pyramidale          |
european-oak               | European oak               | Quercus robur, Quercus petraea | English oak, French oak, pedunculate oak, sessile oak, Quercus robur, Quercus petraea
european-beech             | European beech             | Fagus sylvatica             | steamed beech, common beech
european-ash               | European ash               | Fraxinus excelsior          | common ash, olive ash
sycamore-maple             | sycamore maple             | Acer pseudoplatanus         | European maple, European sycamore
european-walnut            | European walnut            | Juglans regia               | English walnut, French walnut, common walnut
european-cherry            | European cherry            | Prunus avium                | wild cherry, sweet cherry
sweet-chestnut             | sweet chestnut             | Castanea sativa             | European chestnut, Spanish chestnut
common-alder               | common alder               | Alnus glutinosa             | European alder, European black alder
european-lime              | European lime              | Tilia cordata, Tilia platyphyllos | European linden, Tilia cordata, small-leaved lime
white-willow               | white willow               | Salix alba                  |
black-poplar               | black poplar               | Populus nigra               | European poplar
norway-spruce              | Norway spruce              | Picea abies                 | European spruce, whitewood
silver-fir                 | silver fir                 | Abies alba                  | European fir
scots-pine                 | Scots pine                 | Pinus sylvestris            | Scotch pine, European redwood, redwood deal
european-larch             | European larch             | Larix decidua               |
`;

/**
 * Furniture woods for which no open published set of shrinkage and gravity was found: they have a name and no figures, so
 * stock of them can be kept, and whatever needs a figure says that there is none.
 */
export const unfiguredNameTable = `
key                        | name                       | botanical                   | also called
hornbeam                   | hornbeam                   | Carpinus betulus            | European hornbeam
silver-birch               | silver birch               | Betula pendula              | European birch
european-elm               | European elm               | Ulmus glabra, Ulmus minor   | wych elm, English elm
pear                       | pear                       | Pyrus communis              | pearwood, European pear, Swiss pear
apple                      | apple                      | Malus domestica             | applewood
plum                       | plum                       | Prunus domestica            | plumwood
yew                        | yew                        | Taxus baccata               | European yew
boxwood                    | boxwood                    | Buxus sempervirens          | European box
olive                      | olive                      | Olea europaea               | olivewood
european-plane             | European plane             | Platanus × hispanica        | London plane
holm-oak                   | holm oak                   | Quercus ilex                |
service-tree               | service tree               | Sorbus torminalis           | wild service
laburnum                   | laburnum                   | Laburnum anagyroides        |
wenge                      | wenge                      | Millettia laurentii         |
african-padauk             | African padauk             | Pterocarpus soyauxii        | padauk, padouk
bubinga                    | bubinga                    | Guibourtia spp.             |
zebrawood                  | zebrawood                  | Microberlinia spp.          | zebrano
african-ebony              | African ebony              | Diospyros crassiflora       | ebony
`;

/** Trade words that mean several woods of different habits: they are asked back, not guessed. */
export const severalWoods: Readonly<Record<string, readonly string[]>> = {
  oak: ['white-oak', 'northern-red-oak', 'southern-red-oak', 'bur-oak', 'chestnut-oak', 'live-oak', 'european-oak'],
  maple: ['hard-maple', 'red-maple', 'silver-maple', 'bigleaf-maple'],
  birch: ['yellow-birch', 'sweet-birch', 'paper-birch'],
  elm: ['american-elm', 'slippery-elm', 'rock-elm'],
  hickory: ['shagbark-hickory', 'mockernut-hickory', 'pignut-hickory', 'shellbark-hickory', 'pecan'],
  pine: ['eastern-white-pine', 'ponderosa-pine', 'sugar-pine', 'loblolly-pine', 'longleaf-pine', 'red-pine'],
  'southern pine': ['loblolly-pine', 'longleaf-pine', 'shortleaf-pine', 'slash-pine'],
  'yellow pine': ['loblolly-pine', 'longleaf-pine', 'shortleaf-pine', 'slash-pine'],
  'southern yellow pine': ['loblolly-pine', 'longleaf-pine', 'shortleaf-pine', 'slash-pine'],
  cedar: [
    'western-red-cedar',
    'eastern-red-cedar',
    'alaska-yellow-cedar',
    'northern-white-cedar',
    'atlantic-white-cedar',
    'incense-cedar',
    'port-orford-cedar',
  ],
  'red cedar': ['western-red-cedar', 'eastern-red-cedar'],
  spruce: ['sitka-spruce', 'red-spruce', 'engelmann-spruce', 'norway-spruce'],
  hemlock: ['eastern-hemlock', 'western-hemlock'],
  fir: ['coast-douglas-fir', 'white-fir', 'grand-fir', 'noble-fir', 'balsam-fir'],
  magnolia: ['southern-magnolia', 'cucumbertree'],
  rosewood: ['indian-rosewood', 'brazilian-rosewood'],
  eucalyptus: ['jarrah', 'karri'],
};
