/**
 * The two manifests of the Excel add-in, made from one description: the unified JSON for today's Excel, and its XML twin
 * for bought-once Excel and the iPad. Both name only addresses of our own page.
 */

import { NAMESPACE } from '../formulas/catalogue.ts';
import { excelMetadata } from '../formulas/excel-metadata.ts';
import { actionOf, OPENS_WITH_FILE } from '../host/command-actions.ts';
import type { HostCommand } from '../host/host.ts';

export interface ExcelPages {
  /** Where the pages are served, https, without a slash at the end: "https://heartside.example.com/excel". */
  readonly address: string;
  /** Four parts, as the XML wants them. */
  readonly version: string;
}

/** Two ids, because Excel shows the twin only where the other cannot run. */
const ID = '5e2c1b7a-8a1f-4c56-9d0e-3f6b7f6a4d21';
const ID_XML = '9b7d3f10-2f6c-4a1e-8c5b-6d1a0e9f7c42';

const NAME = 'Heartside';
const SHORT = 'Lumber inventory and takeoff for a furniture shop, beside its own sheet.';
const FULL =
  'Reads boards and cut lists from the sheet as it is, counts what a job needs, plans the cutting on the boards in the shop, and writes back to columns of its own. It reads and writes only the workbook it is opened in, and speaks only with your own yard.';
const MENU_TIP = 'Use the selection, refresh statuses, undo, help.';
/** The same items as in the other programs' menus. */
const menuItems: readonly { readonly command: HostCommand; readonly label: string; readonly tip: string }[] = [
  {
    command: 'use-selection',
    label: 'Use selection',
    tip: 'Reads the list around the selected cell: boards or a cut list.',
  },
  {
    command: 'refresh',
    label: 'Refresh statuses',
    tip: 'Shows what the yard knows now beside the rows, before it is written.',
  },
  { command: 'undo', label: 'Undo last write', tip: 'Takes back what Heartside wrote last into this workbook.' },
  {
    command: 'help',
    label: 'Help',
    tip: 'What was changed here, the keyboard, and what to send when something is wrong.',
  },
];
const TIP = 'Boards, jobs and cutting plans beside this sheet.';
const RIBBON_ICON_PX = [16, 32, 80] as const;
export const ICON_PX: readonly number[] = [16, 20, 24, 32, 40, 48, 64, 80];

const iconUrl = (pages: ExcelPages, sizePx: number) => `${pages.address}/icon-${sizePx}.png`;

export function unifiedManifest(pages: ExcelPages): object {
  const page = { page: `${pages.address}/taskpane.html` };
  const icons = RIBBON_ICON_PX.map((size) => ({ size, url: iconUrl(pages, size) }));
  return {
    $schema: 'https://developer.microsoft.com/json-schemas/teams/v1.27/MicrosoftTeams.schema.json',
    manifestVersion: '1.27',
    // Three parts here, four in the twin.
    version: pages.version.split('.').slice(0, 3).join('.'),
    id: ID,
    developer: {
      name: NAME,
      websiteUrl: `${pages.address}/formulas.html`,
      privacyUrl: `${pages.address}/privacy.html`,
      termsOfUseUrl: `${pages.address}/privacy.html`,
    },
    name: { short: NAME, full: `${NAME} for Excel` },
    description: { short: SHORT, full: FULL },
    icons: { color: 'color.png', outline: 'outline.png' },
    accentColor: '#2F5D4C',
    authorization: {
      permissions: { resourceSpecific: [{ name: 'Document.ReadWrite.User', type: 'Delegated' }] },
    },
    extensions: [
      {
        requirements: { scopes: ['workbook'], capabilities: [{ name: 'ExcelApi', minVersion: '1.12' }] },
        runtimes: [
          {
            id: 'heartside',
            type: 'general',
            code: page,
            // One page for the pane and the formulas: one connection, one memory of answers.
            lifetime: 'long',
            requirements: { capabilities: [{ name: 'SharedRuntime', minVersion: '1.1' }] },
            actions: [
              { id: 'openHeartside', type: 'openPage', view: OPENS_WITH_FILE, pinnable: false },
              ...menuItems.map(({ command }) => ({ id: actionOf(command), type: 'executeFunction' })),
            ],
            customFunctions: {
              namespace: { id: NAMESPACE, name: NAMESPACE },
              functions: excelMetadata().functions,
              allowCustomDataForDataTypeAny: false,
            },
          },
        ],
        ribbons: [
          {
            contexts: ['default'],
            tabs: [
              {
                builtInTabId: 'TabHome',
                groups: [
                  {
                    id: 'heartsideGroup',
                    label: NAME,
                    icons,
                    controls: [
                      {
                        id: 'heartsideButton',
                        type: 'button',
                        label: NAME,
                        icons,
                        supertip: { title: NAME, description: TIP },
                        actionId: 'openHeartside',
                      },
                      {
                        id: 'heartsideMenu',
                        type: 'menu',
                        label: 'More',
                        icons,
                        supertip: { title: NAME, description: MENU_TIP },
                        items: menuItems.map(({ command, label, tip }) => ({
                          id: `heartside-item-${command}`,
                          type: 'menuItem',
                          label,
                          icons,
                          supertip: { title: label, description: tip },
                          actionId: actionOf(command),
                        })),
                      },
                    ],
                  },
                ],
              },
            ],
          },
        ],
        alternates: [{ hide: { customOfficeAddin: { officeAddinId: ID_XML } } }],
      },
    ],
    validDomains: [new URL(pages.address).host],
  };
}

const xml = (text: string) =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');

const xmlItem = (command: HostCommand, images: string) => `                    <Item id="Heartside.Item.${command}">
                      <Label resid="Item.${command}"/>
                      <Supertip>
                        <Title resid="Item.${command}"/>
                        <Description resid="Tip.${command}"/>
                      </Supertip>
                      <Icon>${images}</Icon>
                      <Action xsi:type="ExecuteFunction">
                        <FunctionName>${actionOf(command)}</FunctionName>
                      </Action>
                    </Item>`;

export function xmlManifest(pages: ExcelPages): string {
  const url = (file: string) => xml(`${pages.address}/${file}`);
  const images = RIBBON_ICON_PX.map((size) => `<bt:Image size="${size}" resid="Icon.${size}"/>`).join('');
  return `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>
<OfficeApp xmlns="http://schemas.microsoft.com/office/appforoffice/1.1" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance" xmlns:bt="http://schemas.microsoft.com/office/officeappbasictypes/1.0" xmlns:ov="http://schemas.microsoft.com/office/taskpaneappversionoverrides" xsi:type="TaskPaneApp">
  <Id>${ID_XML}</Id>
  <Version>${pages.version}</Version>
  <ProviderName>${NAME}</ProviderName>
  <DefaultLocale>en-US</DefaultLocale>
  <DisplayName DefaultValue="${NAME}"/>
  <Description DefaultValue="${xml(SHORT)}"/>
  <IconUrl DefaultValue="${url('icon-32.png')}"/>
  <HighResolutionIconUrl DefaultValue="${url('icon-64.png')}"/>
  <SupportUrl DefaultValue="${url('formulas.html')}"/>
  <AppDomains>
    <AppDomain>${xml(new URL(pages.address).origin)}</AppDomain>
  </AppDomains>
  <Hosts>
    <Host Name="Workbook"/>
  </Hosts>
  <Requirements>
    <Sets DefaultMinVersion="1.12">
      <Set Name="ExcelApi"/>
    </Sets>
  </Requirements>
  <DefaultSettings>
    <SourceLocation DefaultValue="${url('taskpane.html')}"/>
  </DefaultSettings>
  <Permissions>ReadWriteDocument</Permissions>
  <VersionOverrides xmlns="http://schemas.microsoft.com/office/taskpaneappversionoverrides" xsi:type="VersionOverridesV1_0">
    <Hosts>
      <Host xsi:type="Workbook">
        <Runtimes>
          <Runtime resid="Pane.Url" lifetime="long"/>
        </Runtimes>
        <AllFormFactors>
          <ExtensionPoint xsi:type="CustomFunctions">
            <Script>
              <SourceLocation resid="Script.Url"/>
            </Script>
            <Page>
              <SourceLocation resid="Pane.Url"/>
            </Page>
            <Metadata>
              <SourceLocation resid="Functions.Url"/>
            </Metadata>
            <Namespace resid="Functions.Namespace"/>
          </ExtensionPoint>
        </AllFormFactors>
        <DesktopFormFactor>
          <GetStarted>
            <Title resid="Name"/>
            <Description resid="Tip"/>
            <LearnMoreUrl resid="Help.Url"/>
          </GetStarted>
          <FunctionFile resid="Pane.Url"/>
          <ExtensionPoint xsi:type="PrimaryCommandSurface">
            <OfficeTab id="TabHome">
              <Group id="Heartside.Group">
                <Label resid="Name"/>
                <Icon>${images}</Icon>
                <Control xsi:type="Button" id="Heartside.Open">
                  <Label resid="Name"/>
                  <Supertip>
                    <Title resid="Name"/>
                    <Description resid="Tip"/>
                  </Supertip>
                  <Icon>${images}</Icon>
                  <Action xsi:type="ShowTaskpane">
                    <TaskpaneId>${OPENS_WITH_FILE}</TaskpaneId>
                    <SourceLocation resid="Pane.Url"/>
                  </Action>
                </Control>
                <Control xsi:type="Menu" id="Heartside.Menu">
                  <Label resid="Menu"/>
                  <Supertip>
                    <Title resid="Name"/>
                    <Description resid="Menu.Tip"/>
                  </Supertip>
                  <Icon>${images}</Icon>
                  <Items>
${menuItems.map(({ command }) => xmlItem(command, images)).join('\n')}
                  </Items>
                </Control>
              </Group>
            </OfficeTab>
          </ExtensionPoint>
        </DesktopFormFactor>
      </Host>
    </Hosts>
    <Resources>
      <bt:Images>
        ${RIBBON_ICON_PX.map((size) => `<bt:Image id="Icon.${size}" DefaultValue="${url(`icon-${size}.png`)}"/>`).join('\n        ')}
      </bt:Images>
      <bt:Urls>
        <bt:Url id="Pane.Url" DefaultValue="${url('taskpane.html')}"/>
        <bt:Url id="Script.Url" DefaultValue="${url('taskpane.js')}"/>
        <bt:Url id="Functions.Url" DefaultValue="${url('functions.json')}"/>
        <bt:Url id="Help.Url" DefaultValue="${url('formulas.html')}"/>
      </bt:Urls>
      <bt:ShortStrings>
        <bt:String id="Name" DefaultValue="${NAME}"/>
        <bt:String id="Menu" DefaultValue="More"/>
        ${menuItems.map(({ command, label }) => `<bt:String id="Item.${command}" DefaultValue="${xml(label)}"/>`).join('\n        ')}
        <bt:String id="Functions.Namespace" DefaultValue="${NAMESPACE}"/>
      </bt:ShortStrings>
      <bt:LongStrings>
        <bt:String id="Tip" DefaultValue="${xml(TIP)}"/>
        <bt:String id="Menu.Tip" DefaultValue="${xml(MENU_TIP)}"/>
        ${menuItems.map(({ command, tip }) => `<bt:String id="Tip.${command}" DefaultValue="${xml(tip)}"/>`).join('\n        ')}
      </bt:LongStrings>
    </Resources>
  </VersionOverrides>
</OfficeApp>
`;
}
