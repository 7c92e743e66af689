/**
 * Headings in other languages, without accents: German, French, Spanish, Italian, Portuguese, Dutch, Swedish, Danish and
 * Norwegian, as shops write them (from memory). They stand beside the English words and follow the same rules.
 */
import type { BoardRole, PartRole } from './mapping.ts';

const words = (text: string): readonly string[] => text.trim().split(/\s*,\s*/);

const sizes = {
  length: words(
    'lange, laenge, lg, longueur, largo, longitud, lunghezza, lung, comprimento, compr, lengte, langd, laengde, lengde',
  ),
  width: words('breite, br, b, largeur, larg, ancho, anchura, larghezza, largura, breedte, bredd, bredde'),
  thickness: words(
    'dicke, starke, staerke, epaisseur, epais, ep, grueso, grosor, espesor, spessore, spess, espessura, esp, dikte, tjocklek, tjock, tykkelse, d, s',
  ),
  size: words(
    'mass, masse, abmessung, abmessungen, grosse, l x b x d, lxbxd, d x b x l, dxbxl, medidas, dimensiones, misure, dimensioni, dimensoes, afmeting, afmetingen, maat, maten, matt, mal',
  ),
};

const wood = words(
  'holzart, holz, essence, bois, essence de bois, madera, especie, legno, essenza, madeira, especie, houtsoort, hout, traslag, tra, virke, traesort, traeart, tre, treslag',
);
const notes = words(
  'bemerkung, bemerkungen, anmerkung, anmerkungen, notiz, remarque, remarques, observations, notas, observaciones, nota, osservazioni, opmerking, opmerkingen, anmarkning, anmarkningar, kommentar, bemaerkning, merknad',
);

export const boardWordsAbroad: Readonly<Partial<Record<BoardRole, readonly string[]>>> = {
  tag: words(
    'brett, brett nr, brettnr, brettnummer, bohle, bohle nr, bohlen nr, bohlennummer, nummer, planche, planche no, numero, etiquette, tabla, etiqueta, tavola, tabua, plank nr, planknummer, brada, brada nr, planka, braet, braet nr, bord nr, planke',
  ),
  species: wood,
  ...sizes,
  moisture: words(
    'feuchte, holzfeuchte, feuchtigkeit, feuchte %, humidite, hum, hum %, humidite %, humedad, humedad %, umidita, umidita %, umidade, humidade, vocht, vochtgehalte, vocht %, fukt, fuktkvot, fukt %, fugt, fugt %',
  ),
  readOn: words('datum, gemessen, gemessen am, date de mesure, fecha, data, mesure le, gemeten op, matt den, dato'),
  grade: words('qualitat, gute, sortierung, qualite, choix, calidad, qualita, qualidade, kwaliteit, kvalitet'),
  place: words(
    'lagerort, lager, regal, platz, emplacement, empl, lieu, ubicacion, lugar, posizione, luogo, locatie, plaats, plats, plads, hylla, plassering',
  ),
  cost: words('preis, kosten, prix, precio, coste, prezzo, costo, preco, custo, prijs, pris'),
  delivery: words(
    'lieferung, lieferant, fournisseur, livraison, proveedor, entrega, fornitore, fornecedor, leverancier, levering, leverantor, leverandor',
  ),
  note: notes,
};

export const partWordsAbroad: Readonly<Partial<Record<PartRole, readonly string[]>>> = {
  key: words('pos, repere, rep, posizione, positie'),
  label: words(
    'bezeichnung, benennung, teil, bauteil, werkstuck, designation, nom, pieza, nombre, descripcion, parte, pezzo, descrizione, denominazione, componente, peca, descricao, nome, onderdeel, omschrijving, benaming, del, detalj, benamning, beskrivning, emne, betegnelse, beskrivelse, navn',
  ),
  quantity: words(
    'stk, stck, stuck, stueck, stuckzahl, st, anzahl, anz, menge, nb, nbre, nombre de pieces, quantite, qte, cantidad, cant, ud, uds, unidades, quantita, qta, n pezzi, pezzi, quantidade, qtd, qtde, aantal, antal, antall',
  ),
  species: wood,
  ...sizes,
  note: notes,
};
