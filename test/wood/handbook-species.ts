/**
 * The species figures of the Wood Handbook and the USDA Forest Inventory and Analysis table as they were copied for
 * checking, row by row and apart from the table that the service works with: botanical name (or common name where two
 * rows share one), S_R S_T S_V (FPL-GTR-190 Table 4-3), C_R C_T (Table 13-5), Gb and green MC (FIA), G12 (Table 5-3b). A
 * dash is a figure that is not known. Flags of single figures stand in the table itself.
 */
export const handbookSpecies = `
Alnus rubra | alder red | 4.4 | 7.3 | 12.6 | 0.00151 | 0.00256 | 0.37 | 99 | 0.41
Fraxinus nigra | ash black | 5.0 | 7.8 | 15.2 | 0.00172 | 0.00274 | 0.45 | 85 | 0.49
Fraxinus pennsylvanica | ash green | 4.6 | 7.1 | 12.5 | 0.00169 | 0.00274 | 0.53 | 57 | 0.56
Fraxinus latifolia | ash Oregon | 4.1 | 8.1 | 13.2 | 0.00141 | 0.00285 | 0.5 | 60 | 0.55
Fraxinus americana | ash white | 4.9 | 7.8 | 13.3 | 0.00169 | 0.00274 | 0.55 | 46 | 0.60
Populus tremuloides | aspen quaking | 3.5 | 6.7 | 11.5 | 0.00119 | 0.00234 | 0.35 | 129 | 0.38
Tilia americana | basswood American | 6.6 | 9.3 | 15.8 | 0.00230 | 0.00330 | 0.32 | 105 | 0.37
Fagus grandifolia | beech American | 5.5 | 11.9 | 17.2 | 0.00190 | 0.00431 | 0.56 | 55 | 0.64
Betula papyrifera | birch paper | 6.3 | 8.6 | 16.2 | 0.00219 | 0.00304 | 0.48 | 74 | 0.55
Betula lenta | birch sweet | 6.5 | 9.0 | 15.6 | 0.00256 | 0.00338 | 0.6 | 73 | 0.65
Betula alleghaniensis | birch yellow | 7.3 | 9.5 | 16.8 | 0.00256 | 0.00338 | 0.55 | 72 | 0.62
Aesculus flava | buckeye yellow | 3.6 | 8.1 | 12.5 | 0.00123 | 0.00285 | 0.33 | 143 | -
Juglans cinerea | butternut | 3.4 | 6.4 | 10.6 | 0.00116 | 0.00223 | 0.36 | 105 | 0.38
Prunus serotina | cherry black | 3.7 | 7.1 | 11.5 | 0.00126 | 0.00248 | 0.47 | 53 | 0.50
Castanea dentata | chestnut American | 3.4 | 6.7 | 11.6 | 0.00116 | 0.00234 | 0.4 | 120 | 0.43
Populus deltoides | cottonwood eastern | 3.9 | 9.2 | 13.9 | 0.00133 | 0.00327 | 0.37 | 117 | 0.40
Ulmus americana | elm American | 4.2 | 9.5 | 14.6 | 0.00144 | 0.00338 | 0.46 | 94 | 0.50
Ulmus thomasii | elm rock | 4.8 | 8.1 | 14.9 | 0.00165 | 0.00285 | 0.57 | 51 | 0.63
Ulmus rubra | elm slippery | 4.9 | 8.9 | 13.8 | 0.00169 | 0.00315 | 0.48 | 77 | 0.53
Celtis occidentalis | hackberry | 4.8 | 8.9 | 13.8 | 0.00165 | 0.00315 | 0.49 | 64 | 0.53
Carya illinoinensis | hickory pecan | 4.9 | 8.9 | 13.6 | 0.00169 | 0.00315 | 0.6 | 66 | 0.66
Carya alba | hickory mockernut | 7.7 | 11.0 | 17.8 | 0.00271 | 0.00396 | 0.64 | 63 | 0.72
Carya glabra | hickory pignut | 7.2 | 11.5 | 17.9 | 0.00252 | 0.00415 | 0.66 | 65 | 0.75
Carya ovata | hickory shagbark | 7.0 | 10.5 | 16.7 | 0.00245 | 0.00376 | 0.64 | 60 | 0.72
Carya laciniosa | hickory shellbark | 7.6 | 12.6 | 19.2 | 0.00267 | 0.00459 | 0.62 | 65 | 0.69
Ilex opaca | holly American | 4.8 | 9.9 | 16.9 | 0.00165 | 0.00353 | 0.5 | 83 | -
Gleditsia triacanthos | honeylocust | 4.2 | 6.6 | 10.8 | 0.00144 | 0.00230 | 0.6 | 60 | -
Robinia pseudoacacia | locust black | 4.6 | 7.2 | 10.2 | 0.00158 | 0.00252 | 0.66 | 41 | 0.69
Arbutus menziesii | madrone Pacific | 5.6 | 12.4 | 18.1 | 0.00194 | 0.00451 | 0.58 | 66 | -
Magnolia acuminata | magnolia cucumbertree | 5.2 | 8.8 | 13.6 | 0.00180 | 0.00312 | 0.44 | 78 | 0.48
Magnolia grandiflora | magnolia southern | 5.4 | 6.6 | 12.3 | 0.00187 | 0.00230 | 0.46 | 106 | 0.50
Acer macrophyllum | maple bigleaf | 3.7 | 7.1 | 11.6 | 0.00126 | 0.00248 | 0.44 | 71 | 0.48
Acer nigrum | maple black | 4.8 | 9.3 | 14.0 | 0.00165 | 0.00353 | 0.52 | 70 | 0.57
Acer rubrum | maple red (soft) | 4.0 | 8.2 | 12.6 | 0.00137 | 0.00289 | 0.49 | 64 | 0.54
Acer saccharinum | maple silver (soft) | 3.0 | 7.2 | 12.0 | 0.00102 | 0.00252 | 0.44 | 68 | 0.47
Acer saccharum | maple sugar (hard) | 4.8 | 9.9 | 14.7 | 0.00165 | 0.00353 | 0.56 | 57 | 0.63
Quercus rubra | oak northern red | 4.0 | 8.6 | 13.7 | 0.00158 | 0.00369 | 0.56 | 83 | 0.63
Quercus velutina | oak black | 4.4 | 11.1 | 15.1 | 0.00158 | 0.00369 | 0.56 | 83 | 0.61
Quercus palustris | oak pin | 4.3 | 9.5 | 14.5 | 0.00158 | 0.00369 | 0.58 | 77 | 0.63
Quercus coccinea | oak scarlet | 4.4 | 10.8 | 14.7 | 0.00158 | 0.00369 | 0.6 | 71 | 0.67
Quercus falcata | oak southern red | 4.7 | 11.3 | 16.1 | 0.00158 | 0.00369 | 0.52 | 97 | 0.59
Quercus alba | oak white | 5.6 | 10.5 | 16.3 | 0.00180 | 0.00365 | 0.6 | 68 | 0.68
Quercus macrocarpa | oak bur | 4.4 | 8.8 | 12.7 | 0.00180 | 0.00365 | 0.58 | 74 | 0.64
Quercus prinus | oak chestnut | 5.3 | 10.8 | 16.4 | 0.00180 | 0.00365 | 0.57 | 77 | 0.66
Quercus virginiana | oak live | 6.6 | 9.5 | 14.7 | 0.00230 | 0.00338 | 0.8 | 52 | 0.88
Diospyros virginiana | persimmon | 7.9 | 11.2 | 19.1 | 0.00278 | 0.00403 | 0.64 | 58 | -
Sassafras albidum | sassafras | 4.0 | 6.2 | 10.3 | 0.00137 | 0.00216 | 0.42 | 68 | 0.46
Liquidambar styraciflua | sweetgum | 5.3 | 10.2 | 15.8 | 0.00183 | 0.00365 | 0.46 | 74 | 0.52
Platanus occidentalis | sycamore American | 5.0 | 8.4 | 14.1 | 0.00172 | 0.00296 | 0.46 | 81 | 0.49
Lithocarpus densiflorus | tanoak | 4.9 | 11.7 | 17.3 | 0.00169 | 0.00423 | 0.58 | 80 | -
Nyssa sylvatica | tupelo black | 5.1 | 8.7 | 14.4 | 0.00176 | 0.00308 | 0.46 | 101 | 0.50
Nyssa aquatica | tupelo water | 4.2 | 7.6 | 12.5 | 0.00144 | 0.00267 | 0.46 | 95 | 0.50
Juglans nigra | walnut black | 5.5 | 7.8 | 12.8 | 0.00190 | 0.00274 | 0.51 | 79 | 0.55
Salix nigra | willow black | 3.3 | 8.7 | 13.9 | 0.00112 | 0.00308 | 0.36 | 127 | 0.39
Liriodendron tulipifera | yellow-poplar | 4.6 | 8.2 | 12.7 | 0.00158 | 0.00289 | 0.4 | 95 | 0.42
Taxodium distichum | baldcypress | 3.8 | 6.2 | 10.5 | 0.00130 | 0.00216 | 0.42 | 95 | 0.46
Chamaecyparis nootkatensis | cedar Alaska yellow | 2.8 | 6.0 | 9.2 | 0.00095 | 0.00208 | 0.42 | 72 | 0.44
Chamaecyparis thyoides | cedar Atlantic white | 2.9 | 5.4 | 8.8 | 0.00099 | 0.00187 | 0.31 | 86 | 0.32
Juniperus virginiana | cedar eastern red | 3.1 | 4.7 | 7.8 | 0.00106 | 0.00162 | 0.44 | 35 | 0.47
Calocedrus decurrens | cedar incense | 3.3 | 5.2 | 7.7 | 0.00112 | 0.00180 | 0.35 | 106 | 0.37
Thuja occidentalis | cedar northern white | 2.2 | 4.9 | 7.2 | 0.00074 | 0.00169 | 0.29 | 99 | 0.31
Chamaecyparis lawsoniana | cedar Port-Orford | 4.6 | 6.9 | 10.1 | 0.00158 | 0.00241 | 0.39 | 74 | 0.43
Thuja plicata | cedar western red | 2.4 | 5.0 | 6.8 | 0.00081 | 0.00172 | 0.31 | 40 | 0.32
Pseudotsuga menziesii | Douglas-fir coast | 4.8 | 7.6 | 12.4 | 0.00165 | 0.00267 | 0.45 | 35 | 0.48
Pseudotsuga menziesii | Douglas-fir interior north | 3.8 | 6.9 | 10.7 | 0.00130 | 0.00241 | 0.45 | 35 | 0.48
Abies balsamea | fir balsam | 2.9 | 6.9 | 11.2 | 0.00099 | 0.00241 | 0.33 | 119 | 0.35
Abies grandis | fir grand | 3.4 | 7.5 | 11.0 | 0.00116 | 0.00263 | 0.35 | 106 | 0.37
Abies procera | fir noble | 4.3 | 8.3 | 12.4 | 0.00148 | 0.00293 | 0.37 | 30 | 0.39
Abies concolor | fir white | 3.3 | 7.0 | 9.8 | 0.00112 | 0.00245 | 0.37 | 104 | 0.39
Tsuga canadensis | hemlock eastern | 3.0 | 6.8 | 9.7 | 0.00102 | 0.00237 | 0.38 | 111 | 0.40
Tsuga heterophylla | hemlock western | 4.2 | 7.8 | 12.4 | 0.00144 | 0.00274 | 0.42 | 56 | 0.45
Larix occidentalis | larch western | 4.5 | 9.1 | 14.0 | 0.00155 | 0.00323 | 0.48 | 60 | 0.52
Pinus strobus | pine eastern white | 2.1 | 6.1 | 8.2 | 0.00071 | 0.00212 | 0.34 | 65 | 0.35
Pinus taeda | pine loblolly | 4.8 | 7.4 | 12.3 | 0.00165 | 0.00259 | 0.47 | 81 | 0.51
Pinus contorta | pine lodgepole | 4.3 | 6.7 | 11.1 | 0.00148 | 0.00234 | 0.38 | 64 | 0.41
Pinus palustris | pine longleaf | 5.1 | 7.5 | 12.2 | 0.00176 | 0.00263 | 0.54 | 63 | 0.59
Pinus ponderosa | pine ponderosa | 3.9 | 6.2 | 9.7 | 0.00133 | 0.00216 | 0.38 | 90 | 0.40
Pinus resinosa | pine red | 3.8 | 7.2 | 11.3 | 0.00130 | 0.00252 | 0.41 | 64 | 0.46
Pinus echinata | pine shortleaf | 4.6 | 7.7 | 12.3 | 0.00158 | 0.00271 | 0.47 | 77 | 0.51
Pinus elliottii | pine slash | 5.4 | 7.6 | 12.1 | 0.00187 | 0.00267 | 0.54 | 72 | 0.59
Pinus lambertiana | pine sugar | 2.9 | 5.6 | 7.9 | 0.00099 | 0.00194 | 0.34 | 130 | 0.36
Pinus virginiana | pine Virginia | 4.2 | 7.2 | 11.9 | 0.00144 | 0.00252 | 0.45 | 78 | 0.48
Pinus monticola | pine western white | 4.1 | 7.4 | 11.8 | 0.00141 | 0.00259 | 0.36 | 56 | 0.38
Sequoia sempervirens | redwood old-growth | 2.6 | 4.4 | 6.8 | 0.00088 | 0.00151 | 0.38 | 123 | 0.40
Sequoia sempervirens | redwood young-growth | 2.2 | 4.9 | 7.0 | 0.00074 | 0.00169 | 0.34 | 123 | 0.35
Picea engelmannii | spruce Engelmann | 3.8 | 7.1 | 11.0 | 0.00130 | 0.00248 | 0.33 | 89 | 0.35
Picea rubens | spruce red | 3.8 | 7.8 | 11.8 | 0.00130 | 0.00274 | 0.37 | 47 | 0.40
Picea sitchensis | spruce Sitka | 4.3 | 7.5 | 11.5 | 0.00148 | 0.00263 | 0.33 | 60 | -
Larix laricina | tamarack | 3.7 | 7.4 | 13.6 | 0.00126 | 0.00259 | 0.49 | 54 | 0.53
`;

/** Imported woods: S_R S_T S_V and SG of FPL-GTR-190 Table 4-4 and 5-5. */
export const handbookImported = `
Swietenia macrophylla | mahogany true | 3.0 | 4.1 | 7.8 | 0.45
Khaya spp. | mahogany African (khaya) | 2.5 | 4.5 | 8.8 | 0.42
Entandrophragma cylindricum | sapele | 4.6 | 7.4 | 14.0 | 0.55
Tectona grandis | teak | 2.5 | 5.8 | 7.0 | 0.55
Milicia excelsa | iroko | 2.8 | 3.8 | 8.8 | 0.54
Pericopsis elata | afrormosia | 3.0 | 6.4 | 10.7 | 0.61
Cedrela odorata | Spanish-cedar | 4.2 | 6.3 | 10.3 | 0.41
Peltogyne spp. | purpleheart | 3.2 | 6.1 | 9.9 | 0.67
Dalbergia nigra | rosewood Brazilian | 2.9 | 4.6 | 8.5 | 0.80
Dalbergia latifolia | rosewood Indian | 2.7 | 5.8 | 8.5 | 0.75
Hymenaea courbaril | courbaril (jatoba) | 4.5 | 8.5 | 12.7 | 0.71
Handroanthus/Tabebuia | ipe | 6.6 | 8.0 | 13.2 | 0.92
Terminalia superba | limba | 4.5 | 6.2 | 10.8 | 0.38
Triplochiton scleroxylon | obeche | 3.0 | 5.4 | 9.2 | 0.30
Aucoumea klaineana | okoume | 4.1 | 6.1 | 11.3 | 0.33
Turraeanthus africanus | avodire | 4.6 | 6.7 | 12.0 | 0.48
Carapa guianensis | andiroba | 3.1 | 7.6 | 10.4 | 0.54
Gonystylus bancanus | ramin | 4.3 | 8.7 | 13.4 | 0.52
Tabebuia donnell-smithii | primavera | 3.1 | 5.1 | 9.1 | 0.40
Dyera costulata | jelutong | 2.3 | 5.5 | 7.8 | 0.36
Eucalyptus marginata | eucalyptus: jarrah | 7.7 | 11.0 | 18.7 | 0.67
Eucalyptus diversicolor | eucalyptus: karri | 7.8 | 12.4 | 20.2 | 0.82
Araucaria angustifolia | parana pine | 4.0 | 7.9 | 11.6 | 0.46
Ochroma pyramidale | balsa | 3.0 | 7.6 | 10.8 | 0.16
`;
