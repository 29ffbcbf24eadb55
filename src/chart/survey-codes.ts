/** Seabed, depth, quality and datum: an attribute (E one value, L list), then its values. `S-101` marks a value that S-57 edition 3.1 does not have. */
export const SURVEY_CODES = `
# NATSUR | L | Nature of surface
1 mud
2 clay
3 silt
4 sand
5 stone
6 gravel
7 pebbles
8 cobbles
9 rock
11 lava
14 coral
17 shells
18 boulder
# NATQUA | L | Nature of surface - qualifying terms
1 fine
2 medium
3 coarse
4 broken
5 sticky
6 soft
7 stiff
8 volcanic
9 calcareous
10 hard
# CATZOC | E | Category of zone of confidence data
1 zone of confidence A1
2 zone of confidence A2
3 zone of confidence B
4 zone of confidence C
5 zone of confidence D
6 zone of confidence U (data not assessed)
# WATLEV | E | Water level effect
1 partly submerged at high water
2 always dry
3 always under water/submerged
4 covers and uncovers
5 awash
6 subject to inundation or flooding
7 floating | S-101
# QUASOU | L | Quality of sounding measurement
1 depth known
2 depth unknown
3 doubtful sounding
4 unreliable sounding
5 no bottom found at value shown
6 least depth known
7 least depth unknown, safe clearance at value shown
8 value reported (not surveyed)
9 value reported (not confirmed)
10 maintained depth
11 not regularly maintained
# TECSOU | L | Technique of sounding measurement
1 found by echo-sounder
2 found by side scan sonar
3 found by multi-beam
4 found by diver
5 found by lead-line
6 swept by wire-drag
7 found by laser
8 swept by vertical acoustic system
9 found by electromagnetic sensor
10 photogrammetry
11 satellite imagery
12 found by levelling
13 swept by side-scan sonar
14 computer generated
15 found by lidar | S-101
16 synthetic aperture radar | S-101
17 hyperspectral imagery | S-101
18 mechanically swept | S-101
# EXPSOU | E | Exposition of sounding
1 within the range of depth of the surrounding depth area
2 shoaler than range of depth of the surrounding depth area
3 deeper than range of depth of the surrounding depth area
# CATWED | E | Category of weed/kelp
1 kelp
2 sea weed
3 sea grass
4 sargasso
# CATCOV | E | Category of coverage
1 coverage available
2 no coverage available
# VERDAT | E | Vertical datum
1 Mean low water springs
2 Mean lower low water springs
3 Mean sea level
4 Lowest low water
5 Mean low water
6 Lowest low water springs
7 Approximate mean low water springs
8 Indian spring low water
9 Low water springs
10 Approximate lowest astronomical tide
11 Nearly lowest low water
12 Mean lower low water
13 Low water
14 Approximate mean low water
15 Approximate mean lower low water
16 Mean high water
17 Mean high water springs
18 High water
19 Approximate mean sea level
20 High water springs
21 Mean higher high water
22 Equinoctial spring low water
23 Lowest astronomical tide
24 Local datum
25 International Great Lakes Datum 1985
26 Mean water level
27 Lower low water large tide
28 Higher high water large tide
29 Nearly highest high water
30 highest astronomical tide | S-101
44 baltic sea chart datum 2000 | S-101
# QUAPOS | E | Quality of position
1 surveyed
2 unsurveyed
3 inadequately surveyed
4 approximated
5 position doubtful
6 unreliable
7 reported (not surveyed)
8 reported (not confirmed)
9 estimated
10 precisely known
11 calculated
# CONDTN | E | Condition
1 under construction
2 ruined
3 under reclamation
4 wingless
5 planned construction
`;
