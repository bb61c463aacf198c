"""Everyday words of the trade: two texts that share only one of these share nothing that tells them apart.

Made by hand, from memory; a word of fewer than LEAST letters is never telling by itself.
"""

LEAST = 7

WORDS = frozenset("""
anchorage antique antiques aquarium artisan artisans autumn bakehouse bakeries balcony barbecue barrels baskets
bathroom beautiful bedroom birthday blacksmith blanket blankets boathouse boatyard bookshop botanical boulder brewers
brewery brewing bridges britannia brother brothers building butcher butchers butterfly cabinet calendar candles
captain captains cardinal carousel carpenter carriage carvings cathedral celebrate ceramic ceramics chandlery chapter
charity cheerful cheese chimney chocolate christmas circular classic clothing coaching coastal coffee colonial
colourful company compass copper cottage cottages country countryside cousins crafted crafts creative crescent crooked
crystal cushion decorated delight designs diamond distillery dolphin dolphins dragons drawing drinking elegant
elephant emperor english estuary evening fabrics factory family farmers farmhouse favourite feather feathers ferryman
fireside fisherman fishermen fishing florist flowers forever forever fortune fountain founder foundry friends
furniture gallery gardens general genuine gilding glorious goldsmith granary grandfather grandma grandmother grandpa
green greetings grocery guesthouse handmade handpainted happiness harbour harbours harvest heritage highland highlands
history holiday holidays homemade honest hospital imperial island islands journey kingdom kitchen landing lantern
lanterns laughter leather library lighthouse lighthouses limited littles looking luggage magical manufacture marine
mariner mariners maritime market markets married master masters meadows mermaid midnight millers mountain mountains
museum natural nautical northern orchard orchards original orchid outdoor outside painted painter palaces pancake
parlour passage pastries peacock pelican personal pheasant picture pictures pilgrim pioneer planter playing pleasant
porcelain postcard potters pottery premium private promise quality quarter railway rainbow recipes records regatta
restaurant retired retreat richard riverside rooster runner rustic saddler sailing sailors sailmaker salmons seagull
seahorse seaside seasons service shepherd shepherds shipping shipwright silver sisters smokehouse souvenir souvenirs
southern special spirits spring squirrel stables standard station stationery steamer storeroom stories strawberry
studios summer sunday sunflower sunrise sunset sunshine supplies surgery sweetheart tailors tavern taverns teahouse
textile textiles thimble thistle timber traditional traders trading traveller treasure treasures treehouse trinity
umbrella uncles universal vegetable victory village vineyard vintage wanderer warehouse waterfall waterfront weather
wedding welcome western whisper whistle whiskey wildflower window windmill windows winters wishing wonders wonderful
wooden woodland woodlands woodwork workshop workshops yachting
alimentation antiquites artisanat atelier auberge bateaux biscuits bonjour boucherie boulangerie boutique brasserie
cabaret cavalier chambre chanson chateau chevalier chocolat confiserie couleur couture cuisine dimanche domaine ecurie
epicerie fabrique famille fleuriste fontaine fromage fromagerie galerie grandes habitation imprimerie jardins joyeux
librairie lumiere magasin marchand marches moulins musique noel papeterie parfum patisserie pecheur poisson restaurant
rivage savonnerie souvenir taverne terrasse traiteur verrerie vignoble village
alpenblick anlagen apfelwein bahnhof bergwerk biergarten blumenladen brauerei brauhaus brunnen buchhandlung fischer
fleischerei fremdenzimmer garten gasthaus gasthof geschenke getraenke gruesse handwerk haustier herzlich hofladen
holzkunst kaffeehaus kapitaen keramik kirsche konditorei kuenstler laterne leuchtturm marktplatz meister metzgerei
moebel muehlen museum schmiede schneider schreiner schule seeblick strandhaus tischlerei toepferei wanderer wasser
weihnachten weingut weinstube werkstatt willkommen wirtshaus zimmer
alegria artesania bahia bodegas cafeteria cantina carpinteria cerveza ceramica cocinas familia ferreteria hacienda
hermanos hosteria jardines libreria mercado merceria molinos navidad panaderia pasteleria pescador pescados posadas
recuerdos sombrero taberna vinedos zapateria
albergo antichi artigiani bottega calzoleria cantine caffetteria cucina enoteca famiglia fioraio forno fratelli
giardino libreria locanda mercato osteria panetteria pasticceria pescatore pizzeria profumo ristorante salumeria
trattoria vecchia
bakkerij bloemen boekhandel brouwerij gasthuis herberg huiskamer keuken koffiehuis kruidenier molenaar slagerij
tuinhuis visserij welkom winkels
""".split())


def telling(word):
    """True for a word that would be known again: long enough, and no everyday word of the trade."""
    return len(word) >= LEAST and word not in WORDS and word + "s" not in WORDS and not word.isdigit()
